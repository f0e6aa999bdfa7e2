//! A simulated school year in a data file, as pupils and teachers would have
//! left it.

use jiff::civil::{Date, Weekday, date};
use server::acts::{
    Act, Anyone, Award, DecideSlip, Doing, Given, HandIn, ListKit, MakeClassSet, OpenDraft, Sent,
    Staff, TakeBench,
};
use server::clock::{HOUR, MINUTE};
use server::db::decision::{FlagKey, Verdict};
use server::db::kit::Kind;
use server::db::revision::{self, Answers, Entry};
use server::db::{Error, staff};
use server::ids::{ClassSetId, RevisionId};
use server::report::desk::first;
use simulator::year::{CLASSES, Department, HandedIn, KITS, Lesson, TEACHER_OF};

use super::act::Join;
use super::typed::typed;

/// The four teachers, in the order of the simulated year. The first of them
/// is the head of department.
pub(crate) const TEACHERS: [&str; 4] = ["Ms Fell", "Mr Tarn", "Dr Beck", "Mrs Holm"];

/// Stores the year that starts in September of `starts`, drawn with a seed.
/// Whom and what the file has already is not made again.
pub(crate) struct StoreYear {
    pub(crate) department: Department,
    pub(crate) starts: i16,
    pub(crate) seed: u64,
}

impl Act<Anyone> for StoreYear {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        let teachers = teachers(doing).await?;
        for label in KITS {
            let kit = ListKit {
                label: label.to_owned(),
                kind: match label.split(' ').next() {
                    Some("Tank") => Kind::Tank,
                    Some("Generator") => Kind::Generator,
                    _ => Kind::String,
                },
            };
            let _ = doing.perform(0, teachers[0], kit).await?;
        }
        let monday = first_monday(self.starts);
        for lesson in self.department.year(self.seed) {
            let held = Held {
                on: monday + jiff::Span::new().days(i64::from(lesson.day)),
                teacher: teachers[TEACHER_OF[lesson.class]],
            };
            held.store(doing, &lesson).await?;
        }
        Ok(())
    }
}

async fn teachers(doing: &mut Doing<'_>) -> Result<Vec<Staff>, Error> {
    let mut teachers = Vec::new();
    for name in TEACHERS {
        teachers.push(match staff::find_by_name(doing.read(), name).await? {
            Some(found) => Staff {
                id: found.id,
                is_head: name == TEACHERS[0],
            },
            None => doing.perform(0, Anyone, Join(name)).await?,
        });
    }
    Ok(teachers)
}

/// The first Monday on or after 8 September.
fn first_monday(starts: i16) -> Date {
    date(starts, 9, 7).nth_weekday(1, Weekday::Monday).unwrap()
}

/// A lesson's circumstances.
struct Held {
    on: Date,
    teacher: Staff,
}

impl Held {
    async fn store(&self, doing: &mut Doing<'_>, lesson: &Lesson) -> Result<(), Error> {
        let make = MakeClassSet {
            class_name: CLASSES[lesson.class].to_owned(),
            method: typed(&lesson.method),
            held_on: self.on,
            groups: u8::try_from(lesson.sheets.len()).unwrap(),
            is_live: true,
        };
        let at = self.at(lesson);
        let id = doing.perform(at - 24 * HOUR, self.teacher, make).await?;
        for (label, sheet) in ('A'..='Z').zip(&lesson.sheets) {
            let bench = (id, label.to_string());
            let kept = hand_in(doing, at, &bench, sheet).await?;
            self.decide(doing, at, bench, (sheet, kept)).await?;
        }
        Ok(())
    }

    /// Unix ms of the hand-ins: classes later in the list have later lessons.
    fn at(&self, lesson: &Lesson) -> i64 {
        let starts = self
            .on
            .at(9, 0, 0, 0)
            .to_zoned_datetime(jiff::tz::TimeZone::UTC);
        let later = i64::try_from(lesson.class).unwrap() * 50 * MINUTE;
        starts.unwrap().timestamp().as_millisecond() + later
    }

    /// Confirms what a teacher found in the readings.
    async fn decide(
        &self,
        doing: &mut Doing<'_>,
        at: i64,
        (class_set, label): (ClassSetId, String),
        (simulated, revision): (&HandedIn, RevisionId),
    ) -> Result<(), Error> {
        let Some((step, slip)) = simulated.confirmed else {
            return Ok(());
        };
        let decide = DecideSlip {
            class_set,
            label,
            revision,
            flag: FlagKey {
                step: step.to_owned(),
                slip: slip.to_owned(),
                row_label: String::new(),
            },
            verdict: Verdict::Confirmed,
            reason: String::new(),
        };
        doing.perform(at, self.teacher, decide).await?.unwrap();
        Ok(())
    }
}

async fn hand_in(
    doing: &mut Doing<'_>,
    at: i64,
    (class_set, label): &(ClassSetId, String),
    simulated: &HandedIn,
) -> Result<RevisionId, Error> {
    let take = TakeBench {
        class_set: *class_set,
        label: label.clone(),
        number_hash: "nobody comes back".to_owned(),
        token_hash: format!("{class_set}{label}"),
    };
    let visit = doing.perform(at, Anyone, take).await?.unwrap();
    let hand_in = HandIn {
        draft: doing.perform(at, visit, OpenDraft).await?.unwrap(),
        kind: revision::Kind::HandedIn,
        entry: Entry {
            sheet: typed(&simulated.sheet),
            kit: simulated.kit.clone(),
            shared: String::new(),
            answers: Answers::default(),
        },
    };
    let sent = doing.perform(at, visit, hand_in).await?;
    let Sent::Kept(id) = sent else {
        unreachable!("{sent:?}")
    };
    Ok(id)
}

/// Marks a class set, sheet by sheet, on every point: groups in turn get all
/// marks, and one less on each of the first points.
pub(crate) struct MarkAll(pub(crate) ClassSetId);

impl Act<Staff> for MarkAll {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        let (at, desk) = (doing.at(), first::load(doing.read(), self.0, None).await?);
        for (group, sheet) in desk.sheets.iter().enumerate() {
            let given = desk.points.iter().enumerate().map(|(place, point)| {
                let full = i64::from(point.point.marks);
                Given {
                    sheet: sheet.sheet_id,
                    key: point.key,
                    marks: Some(if place < group { full - 1 } else { full }),
                    reason: "as it is in their book".to_owned(),
                    revision: sheet.revision_id(),
                    newest: None,
                }
            });
            let award = Award {
                class_set: self.0,
                version: desk.version.id,
                given: given.collect(),
            };
            doing.perform(at, by, award).await?.unwrap();
        }
        Ok(())
    }
}
