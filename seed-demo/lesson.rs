//! Holding a lesson: the class set made, benches taken, sheets saved and
//! handed in, looked at and marked, in the order of the school day.

use jiff::civil::Date;
use server::acts::{Anyone, Doing, HandIn, MakeClassSet, OpenDraft, Sent, SetState, TakeBench};
use server::clock::MINUTE;
use server::db::class_set::State;
use server::db::{Error, bench};
use server::ids::ClassSetId;
use server::secret;

use crate::department::done;
use crate::group::Group;
use crate::pile::{self, Marker};
use crate::term::Lesson;
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

/// Where the luck of all groups starts: with this one only the groups without
/// their hanger or their multiplier stand apart, as the tests see to.
const LUCK: usize = 20_431;

/// Returns the number that decides the luck of a group.
pub(crate) fn number(lesson: usize, group: usize) -> u64 {
    u64::try_from(LUCK + 100 * lesson + group).unwrap_or(0)
}

/// Holds a lesson from its class set to its marking.
pub(crate) async fn hold(
    doing: &mut Doing<'_>,
    held: &Held,
    lesson: &Lesson,
) -> Result<ClassSetId, Error> {
    let by = held.marker.staff;
    let make = MakeClassSet {
        class_name: lesson.class.to_owned(),
        method: lesson.method,
        held_on: held.on,
        groups: u8::try_from(lesson.groups.len()).unwrap_or(u8::MAX),
        is_live: true,
    };
    let id = doing.perform(held.starts - 30 * MINUTE, by, make).await?;
    let benches = bench::list(doing.read(), id).await?;
    for (at, (bench, group)) in benches.iter().zip(&lesson.groups).enumerate() {
        let group = (group, number(lesson.place, at));
        attend(doing, held, id, &bench.label, group).await?;
    }
    if !lesson.is_open {
        register::keep(doing, held, id, &benches, lesson).await?;
        let close = SetState {
            class_set: id,
            state: State::Closed,
        };
        let evening = held.starts + 360 * MINUTE;
        doing.perform(evening, by, close).await?;
        evening::look_at(doing, held, id, &lesson.groups).await?;
    }
    pile::mark(doing, held, id, lesson.marked).await?;
    Ok(id)
}

/// Lets one group take its bench, save and hand in.
async fn attend(
    doing: &mut Doing<'_>,
    held: &Held,
    class_set: ClassSetId,
    label: &str,
    (group, number): (&Group, u64),
) -> Result<(), Error> {
    let sends = group.sends(number);
    if sends.is_empty() {
        return Ok(());
    }
    // Groups start and finish a few minutes apart.
    let pace = i64::try_from(number * 7 % 11).unwrap_or(0) * MINUTE / 2;
    let mut at = held.starts + 5 * MINUTE + pace;
    let take = TakeBench {
        class_set,
        label: label.to_owned(),
        number_hash: held.come_back_hash.clone(),
        token_hash: secret::sha256(&secret::token()),
    };
    let visit = done(doing.perform(at, Anyone, take).await?)?;
    for (kind, entry) in sends {
        let draft = done(doing.perform(at, visit, OpenDraft).await?)?;
        at += 13 * MINUTE + pace;
        let hand_in = HandIn { draft, kind, entry };
        let sent = doing.perform(at, visit, hand_in).await?;
        done(matches!(sent, Sent::Kept(_)).then_some(()).ok_or(sent))?;
    }
    Ok(())
}
