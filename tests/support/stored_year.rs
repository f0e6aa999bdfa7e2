//! A simulated school year in a data file: through the program's own
//! functions, as pupils and teachers would have left it.

use jiff::civil::{Date, Weekday, date};
use server::clock::{HOUR, MINUTE};
use server::db::bench::{self, Bench};
use server::db::class_set::{self, NewClassSet};
use server::db::decision::{self, FlagKey, NewDecision, Verdict};
use server::db::kit::{self, Kind};
use server::db::mark::{self, NewMark};
use server::db::revision::{self, Answers, Entry, NewRevision, Revision, Writer};
use server::db::staff::{self, NewStaff, Role};
use server::db::{Error, Writing, scheme, sheet, visit};
use server::ids::{ClassSetId, StaffId};

use super::school::{CLASSES, KITS, School, SimLesson, SimSheet, TEACHER_OF};

/// The four teachers, in the order of the simulated year. The first of them
/// is the head of department.
pub(crate) const TEACHERS: [&str; 4] = ["Ms Fell", "Mr Tarn", "Dr Beck", "Mrs Holm"];

/// Stores the year that starts in September of `starts`, drawn with a seed.
pub(crate) async fn store(
    db: &mut Writing,
    school: &School,
    starts: i16,
    seed: u64,
) -> Result<(), Error> {
    let teachers = teachers(db).await?;
    for label in KITS {
        let kind = match label.split(' ').next() {
            Some("Tank") => Kind::Tank,
            Some("Generator") => Kind::Generator,
            _ => Kind::String,
        };
        kit::insert(db, label, kind).await?;
    }
    let monday = first_monday(starts);
    for lesson in school.year(seed) {
        let held = Held {
            on: monday + jiff::Span::new().days(i64::from(lesson.day)),
            teacher: teachers[TEACHER_OF[lesson.class]],
        };
        held.store(db, &lesson).await?;
    }
    Ok(())
}

async fn teachers(db: &mut Writing) -> Result<Vec<StaffId>, Error> {
    let mut ids = Vec::new();
    for name in TEACHERS {
        let new = NewStaff {
            name: name.to_owned(),
            password_hash: "nobody signs in".to_owned(),
            role: if name == TEACHERS[0] {
                Role::Head
            } else {
                Role::Teacher
            },
            made_at: 0,
        };
        staff::insert(db, &new).await?;
        ids.push(staff::find_by_name(db, name).await?.unwrap().id);
    }
    Ok(ids)
}

/// The first Monday on or after 8 September.
fn first_monday(starts: i16) -> Date {
    date(starts, 9, 7).nth_weekday(1, Weekday::Monday).unwrap()
}

/// A lesson's circumstances.
struct Held {
    on: Date,
    teacher: StaffId,
}

impl Held {
    async fn store(&self, db: &mut Writing, lesson: &SimLesson) -> Result<(), Error> {
        let new = NewClassSet {
            class_name: CLASSES[lesson.class].to_owned(),
            method: lesson.method,
            held_on: self.on,
            groups: u8::try_from(lesson.sheets.len()).unwrap(),
            created_by: self.teacher,
            is_live: true,
            made_at: self.at(lesson) - 24 * HOUR,
        };
        let id = class_set::insert(db, &new).await?;
        let benches = bench::list(db, id).await?;
        for (bench, sheet) in benches.iter().zip(&lesson.sheets) {
            let kept = self.hand_in(db, lesson, bench, sheet).await?;
            self.decide(db, bench, sheet, &kept).await?;
        }
        Ok(())
    }

    /// Unix ms of the hand-ins: classes later in the list have later lessons.
    fn at(&self, lesson: &SimLesson) -> i64 {
        let starts = self
            .on
            .at(9, 0, 0, 0)
            .to_zoned_datetime(jiff::tz::TimeZone::UTC);
        let later = i64::try_from(lesson.class).unwrap() * 50 * MINUTE;
        starts.unwrap().timestamp().as_millisecond() + later
    }

    async fn hand_in(
        &self,
        db: &mut Writing,
        lesson: &SimLesson,
        bench: &Bench,
        simulated: &SimSheet,
    ) -> Result<Revision, Error> {
        let at = self.at(lesson);
        let token = format!("{}", bench.id.0);
        let visit = visit::insert(db, &token, bench.id, at).await?;
        let entry = Entry {
            sheet: simulated.typed.clone(),
            kit: simulated.kit.clone(),
            shared: String::new(),
            answers: Answers::default(),
        };
        let new = NewRevision {
            sheet_id: bench.sheet_id,
            version: 1,
            kind: revision::Kind::HandedIn,
            entry: &entry,
            written_at: at,
            writer: Writer::Visit(visit),
        };
        let kept = revision::insert(db, &new).await?;
        sheet::update_kit(db, bench.sheet_id, &entry.kit).await?;
        Ok(kept)
    }

    /// Confirms what a teacher found in the readings.
    async fn decide(
        &self,
        db: &mut Writing,
        bench: &Bench,
        simulated: &SimSheet,
        kept: &Revision,
    ) -> Result<(), Error> {
        let Some((step, cause)) = simulated.confirmed else {
            return Ok(());
        };
        let new = NewDecision {
            sheet_id: bench.sheet_id,
            revision_id: kept.id,
            flag: FlagKey {
                step: step.name().to_owned(),
                slip: cause.code().to_owned(),
                row_label: String::new(),
            },
            verdict: Verdict::Confirmed,
            reason: String::new(),
            staff_id: self.teacher,
            decided_at: kept.written_at,
        };
        decision::insert(db, &new).await
    }
}

/// Marks every sheet of a class set on every point: groups in turn get all
/// marks, and one less on each of the first points.
pub(crate) async fn mark(db: &mut Writing, id: ClassSetId, by: StaffId) -> Result<(), Error> {
    let class_set = class_set::get(db, id).await?;
    let version = scheme::get_of_class_set(db, &class_set).await?;
    class_set::choose_scheme(db, id, version).await?;
    let points = scheme::list_points(db, version).await?;
    for (group, bench) in bench::list(db, id).await?.iter().enumerate() {
        for (at, point) in points.iter().enumerate() {
            let full = i64::from(point.point.marks);
            let new = NewMark {
                sheet_id: bench.sheet_id,
                marking_point_id: point.id,
                revision_id: None,
                awarded: Some(if at < group { full - 1 } else { full }),
                suggested: None,
                reason: String::new(),
                act: uuid::Uuid::new_v4().to_string(),
                undoes: None,
                staff_id: by,
                marked_at: 0,
            };
            mark::insert(db, &new).await?;
        }
    }
    Ok(())
}
