//! Holding a lesson: the class set made, benches chosen, sheets saved and
//! handed in, slips decided on, in the order and by the functions of the pages.

use jiff::civil::Date;
use server::clock::{HOUR, MINUTE};
use server::db::annotation::{self, NewAnnotation};
use server::db::bench::{self, Bench};
use server::db::class_set::{self, NewClassSet, State};
use server::db::decision::{self, NewDecision, Verdict};
use server::db::event::{self, NewEvent};
use server::db::sheet::{self, Outcome, Submission};
use server::db::{Connection, Error, draft, release, visit};
use server::ids::{ClassSetId, StaffId};
use server::report::{self, finding, flag, marking};
use server::secret;

use crate::group::{Group, Word};
use crate::marker::{self, Temper};
use crate::term::{Lesson, Teacher};

/// When and by whom a lesson is held.
#[derive(Clone, Debug)]
pub(crate) struct Held {
    pub(crate) on: Date,
    /// Unix ms.
    pub(crate) starts: i64,
    pub(crate) teacher: StaffId,
    /// Under which every bench's come-back number is kept.
    pub(crate) come_back_hash: String,
}

/// Where the luck of all groups starts: with this one only the groups without
/// their hanger or their multiplier stand apart, as the tests see to.
const LUCK: usize = 7_100;

/// The number that decides the luck of a group.
pub(crate) fn number(lesson: usize, group: usize) -> u64 {
    u64::try_from(LUCK + 100 * lesson + group).unwrap_or(0)
}

/// Holds a lesson from its class set to its marking.
pub(crate) async fn hold(db: &mut Connection, held: &Held, lesson: &Lesson) -> Result<(), Error> {
    let new = NewClassSet {
        class_name: lesson.class.to_owned(),
        method: lesson.method,
        held_on: held.on,
        groups: u8::try_from(lesson.groups.len()).unwrap_or(u8::MAX),
        is_live: true,
        created_by: held.teacher,
        made_at: held.starts - 30 * MINUTE,
    };
    let id = class_set::insert(db, &new).await?;
    tell(db, held, new.made_at, "set_made", id, "").await?;
    let benches = bench::list(db, id).await?;
    for (at, (bench, group)) in benches.iter().zip(&lesson.groups).enumerate() {
        attend(db, held, bench, group, number(lesson.place, at)).await?;
    }
    if !lesson.is_open {
        let evening = held.starts + 360 * MINUTE;
        class_set::update_state(db, id, State::Closed).await?;
        tell(db, held, evening, "set_closed", id, "").await?;
        for (bench, group) in benches.iter().zip(&lesson.groups) {
            look_at(db, held, id, bench, &group.words).await?;
        }
    }
    if lesson.is_released {
        mark_and_release(db, held, id, lesson.teacher).await?;
    }
    Ok(())
}

/// Marks the pile two evenings later and lets the groups read it.
async fn mark_and_release(
    db: &mut Connection,
    held: &Held,
    id: ClassSetId,
    teacher: Teacher,
) -> Result<(), Error> {
    let temper = if teacher == Teacher::Rook {
        Temper::Severe
    } else {
        Temper::Even
    };
    let at = held.starts + 56 * HOUR;
    let version = marking::load(db, id).await?.version.id;
    class_set::update_scheme(db, id, version).await?;
    marker::mark(db, id, held.teacher, temper, at).await?;
    release::insert(db, id, version, true, held.teacher, at).await?;
    tell(db, held, at, "marks_released", id, "").await
}

/// What one group does: chooses its bench, saves, hands in.
async fn attend(
    db: &mut Connection,
    held: &Held,
    bench: &Bench,
    group: &Group,
    number: u64,
) -> Result<(), Error> {
    let sends = group.sends(number);
    if sends.is_empty() {
        return Ok(());
    }
    bench::update_come_back(db, bench.id, &held.come_back_hash).await?;
    let browser = secret::sha256(&secret::token());
    // Groups start and finish a few minutes apart.
    let pace = i64::try_from(number * 7 % 11).unwrap_or(0) * MINUTE / 2;
    let arrived = held.starts + 5 * MINUTE + pace;
    let visit_id = visit::insert(db, &browser, bench.id, arrived).await?;
    let mut at = arrived;
    for (kind, entry) in sends {
        let draft = draft::find_or_insert(db, bench.sheet_id, visit_id, at).await?;
        at += 13 * MINUTE + pace;
        let sheet_id = bench.sheet_id;
        let new = Submission {
            sheet_id,
            visit_id,
            draft,
            kind,
            entry,
            at,
        };
        match sheet::submit(db, &new).await? {
            Outcome::Kept(_) => {}
            // Nobody else is there: the set is open and the draft is new.
            Outcome::Conflict { .. } | Outcome::UnknownDraft { .. } | Outcome::Closed => {
                return Err(Error::Stopped);
            }
        }
    }
    Ok(())
}

/// What the teacher does with one sheet that evening.
async fn look_at(
    db: &mut Connection,
    held: &Held,
    id: ClassSetId,
    bench: &Bench,
    words: &[Word],
) -> Result<(), Error> {
    let evening = held.starts + 370 * MINUTE;
    for word in words {
        match *word {
            Word::Confirmed => decide(db, held, id, bench, Verdict::Confirmed, "", evening).await?,
            Word::FoundAtTheBench => confirm_readings(db, held, id, bench, evening).await?,
            Word::Dismissed(reason) => {
                decide(db, held, id, bench, Verdict::Dismissed, reason, evening).await?;
            }
            Word::Note(row, step, body) => {
                let new = NewAnnotation {
                    sheet_id: bench.sheet_id,
                    row_label: row.map(str::to_owned),
                    step: step.map(|field| field.name().to_owned()),
                    body: body.to_owned(),
                    for_group: false,
                    staff_id: held.teacher,
                    written_at: evening,
                };
                annotation::insert(db, &new).await?;
            }
        }
    }
    Ok(())
}

/// The same decision on every slip that a sheet shows.
async fn decide(
    db: &mut Connection,
    held: &Held,
    id: ClassSetId,
    bench: &Bench,
    verdict: Verdict,
    reason: &str,
    decided_at: i64,
) -> Result<(), Error> {
    let Some(report) = report::sheet::load(db, id, &bench.label, None).await? else {
        return Ok(());
    };
    let Some(work) = report.work else {
        return Ok(());
    };
    let what = match verdict {
        Verdict::Confirmed => "slip_confirmed",
        Verdict::Dismissed => "slip_dismissed",
    };
    for line in flag::lines(&work, analysis::slip::Kind::Slip) {
        tell(db, held, decided_at, what, id, &line.key.slip).await?;
        let new = NewDecision {
            sheet_id: bench.sheet_id,
            revision_id: work.revision.id,
            flag: line.key,
            verdict,
            reason: reason.to_owned(),
            staff_id: held.teacher,
            decided_at,
        };
        decision::insert(db, &new).await?;
    }
    Ok(())
}

/// Confirms the slips that the readings of a sheet most probably show.
async fn confirm_readings(
    db: &mut Connection,
    held: &Held,
    id: ClassSetId,
    bench: &Bench,
    decided_at: i64,
) -> Result<(), Error> {
    let class = report::class_set::load(db, id).await?;
    let mut groups = class.groups.iter();
    let group = groups.find(|group| group.bench.id == bench.id);
    let Some(work) = group.and_then(|group| group.work.as_ref()) else {
        return Ok(());
    };
    let likely = finding::lines(work).into_iter();
    let likely =
        likely.filter(|line| !line.is_apparatus() && class.class_set.is_for_bench(line.share));
    for line in likely {
        tell(db, held, decided_at, "slip_confirmed", id, &line.key.slip).await?;
        let new = NewDecision {
            sheet_id: bench.sheet_id,
            revision_id: work.revision.id,
            flag: line.key,
            verdict: Verdict::Confirmed,
            reason: "They counted again and found it.".to_owned(),
            staff_id: held.teacher,
            decided_at,
        };
        decision::insert(db, &new).await?;
    }
    Ok(())
}

async fn tell(
    db: &mut Connection,
    held: &Held,
    at: i64,
    what: &str,
    id: ClassSetId,
    detail: &str,
) -> Result<(), Error> {
    let new = NewEvent {
        at,
        what,
        staff_id: Some(held.teacher),
        class_set_id: Some(id),
        detail,
    };
    event::insert(db, &new).await
}
