//! Holding a lesson: the class set made, benches chosen, sheets saved and
//! handed in, looked at and marked, in the order and by the functions of the
//! pages.

use jiff::civil::Date;
use server::acts::Doing;
use server::clock::{HOUR, MINUTE};
use server::db::bench::{self, Bench};
use server::db::class_set::{self, NewClassSet, State};
use server::db::event::{self, NewEvent};
use server::db::sheet::{self, Outcome, Submission};
use server::db::{Error, Writing, draft, visit};
use server::ids::ClassSetId;
use server::secret;

use crate::group::Group;
use crate::pile::{self, Marker};
use crate::term::{Lesson, Marked};
use crate::{evening, register};

/// When and by whom a lesson is held.
#[derive(Clone, Debug)]
pub(crate) struct Held {
    pub(crate) on: Date,
    /// When the demo is made.
    pub(crate) today: Date,
    /// Unix ms.
    pub(crate) starts: i64,
    /// Who teaches it, and marks it.
    pub(crate) marker: Marker,
    /// Under which every bench's come-back number is kept.
    pub(crate) come_back_hash: String,
}

impl Held {
    /// Writes down what happened.
    pub(crate) async fn tell(
        &self,
        db: &mut Writing,
        at: i64,
        what: &str,
        id: ClassSetId,
        detail: &str,
    ) -> Result<(), Error> {
        let new = NewEvent {
            at,
            what,
            staff_id: Some(self.marker.id),
            class_set_id: Some(id),
            detail,
        };
        event::insert(db, &new).await
    }
}

/// Where the luck of all groups starts: with this one only the groups without
/// their hanger or their multiplier stand apart, as the tests see to.
const LUCK: usize = 7_100;

/// The number that decides the luck of a group.
pub(crate) fn number(lesson: usize, group: usize) -> u64 {
    u64::try_from(LUCK + 100 * lesson + group).unwrap_or(0)
}

/// Holds a lesson from its class set to its marking.
pub(crate) async fn hold(
    doing: &mut Doing<'_>,
    held: &Held,
    lesson: &Lesson,
) -> Result<ClassSetId, Error> {
    let db = doing.writing();
    let new = NewClassSet {
        class_name: lesson.class.to_owned(),
        method: lesson.method,
        held_on: held.on,
        groups: u8::try_from(lesson.groups.len()).unwrap_or(u8::MAX),
        is_live: true,
        created_by: held.marker.id,
        made_at: held.starts - 30 * MINUTE,
    };
    let id = class_set::insert(db, &new).await?;
    held.tell(db, new.made_at, "set_made", id, "").await?;
    let benches = bench::list(db, id).await?;
    for (at, (bench, group)) in benches.iter().zip(&lesson.groups).enumerate() {
        attend(db, held, bench, group, number(lesson.place, at)).await?;
    }
    if !lesson.is_open {
        register::keep(db, held, id, &benches, lesson).await?;
        let evening = held.starts + 360 * MINUTE;
        class_set::update_state(db, id, State::Closed).await?;
        held.tell(db, evening, "set_closed", id, "").await?;
        for (bench, group) in benches.iter().zip(&lesson.groups) {
            evening::look_at(db, held, id, bench, &group.words).await?;
        }
    }
    mark(doing, held, id, lesson.marked).await?;
    Ok(id)
}

/// What is marked of it is marked from the second evening on, and given out
/// when it is all marked.
async fn mark(
    doing: &mut Doing<'_>,
    held: &Held,
    id: ClassSetId,
    marked: Marked,
) -> Result<(), Error> {
    let from = held.starts + 55 * HOUR;
    match marked {
        Marked::No => Ok(()),
        Marked::First(sheets) => pile::mark_sheets(doing, id, held.marker, sheets, from).await,
        Marked::All => pile::mark_sheets(doing, id, held.marker, usize::MAX, from).await,
        Marked::GivenOut => {
            pile::mark_sheets(doing, id, held.marker, usize::MAX, from).await?;
            let at = from + HOUR;
            pile::give_out(doing, id, held.marker.id, at).await?;
            held.tell(doing.writing(), at, "marks_released", id, "")
                .await
        }
    }
}

/// What one group does: chooses its bench, saves, hands in.
async fn attend(
    db: &mut Writing,
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
