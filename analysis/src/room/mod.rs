//! Which bench to walk to next, and why: the order of the benches in a
//! lesson.
//!
//! The order is a judgement, all of it our choice. What the readings suggest
//! comes first, since readings can only be taken again while the apparatus
//! stands: a group's own before its kit's, which one visit mends for several.
//! A group that does not get on loses its lesson, so it comes next. A slip in
//! the working keeps until the apparatus is packed away.

use std::cmp::Ordering;

/// Milliseconds in a minute.
const MINUTE: i64 = 60_000;

/// A bench that is writing is stuck when nothing of it was heard for so long,
/// in ms.
///
/// Not where it was so long ago that it was in another lesson ([`LESSON`]).
/// Our choice: a row takes a careful group two to four minutes.
pub const STUCK_AFTER: i64 = 5 * MINUTE;

/// A bench where nothing was entered is late when half of the benches began
/// at least so long ago, in ms.
///
/// Our choice: late enough for a queue at the tank, early enough to save the
/// lesson.
pub const LATE_AFTER: i64 = 10 * MINUTE;

/// What was heard longer ago than this, in ms, was in another lesson.
///
/// Where nothing was heard since, the lesson is over, and nobody is stuck or
/// late. Our choice: longer than a double lesson.
pub const LESSON: i64 = 120 * MINUTE;

/// How far a bench has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Nobody chose it.
    NotBegun,
    /// It was chosen; nothing is stored yet.
    Writing,
    /// Its work is stored, but was never handed in.
    Saved,
    /// Its work was handed in, whether or not it was changed since.
    HandedIn,
}

/// What is known of a bench in the lesson. Times are in ms on one clock.
#[derive(Clone, Copy, Debug)]
pub struct Bench {
    /// How far it has come.
    pub stage: Stage,
    /// When it was first heard of; `None` where it never was.
    pub began: Option<i64>,
    /// When it was last heard of: chosen, saved or handed in.
    pub heard: Option<i64>,
    /// Probability (0 to 1) of the most probable slip in its readings that is
    /// worth a visit.
    pub reading: Option<f64>,
    /// The same of a fault of its kit.
    pub kit: Option<f64>,
    /// Whether its working shows a slip.
    pub has_slip: bool,
    /// Whether the teacher was there and nothing has changed since.
    pub was_seen: bool,
}

/// Why a bench needs a visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// Its readings suggest a slip.
    Reading,
    /// Its readings suggest a fault of the kit.
    Kit,
    /// It is writing, and nothing of it was heard for [`STUCK_AFTER`].
    Stuck,
    /// Nothing was entered, though others began long ago ([`LATE_AFTER`]).
    Late,
    /// Its own figures show a slip in the working.
    Working,
    /// Nothing calls for a visit.
    Nothing,
}

impl Need {
    /// Its place among the kinds: who is stuck and who never began are one.
    fn rank(self) -> u8 {
        match self {
            Self::Reading => 0,
            Self::Kit => 1,
            Self::Stuck | Self::Late => 2,
            Self::Working => 3,
            Self::Nothing => 4,
        }
    }
}

/// The benches by who needs a visit most: the index of each in `benches`, and
/// its need.
///
/// Within a kind a bench that was seen comes last, then the less probable
/// comes later (in whole per cent, as pages print it, so that benches do not
/// change places for nothing); otherwise the order given stays. `is_open` says
/// whether groups may still write: if not, nobody is stuck or late.
///
/// ```
/// use analysis::room::{Bench, Need, Stage, order};
/// let bench = Bench {
///     stage: Stage::HandedIn, began: Some(0), heard: Some(0), reading: None, kit: None,
///     has_slip: false, was_seen: false,
/// };
/// let benches = [bench, Bench { reading: Some(0.9), ..bench }];
/// assert_eq!(order(&benches, 0, true), [(1, Need::Reading), (0, Need::Nothing)]);
/// ```
#[must_use]
pub fn order(benches: &[Bench], now: i64, is_open: bool) -> Vec<(usize, Need)> {
    let lesson = Lesson::of(benches, now, is_open);
    let needs = benches.iter().map(|bench| lesson.need(bench));
    let mut order: Vec<_> = needs.enumerate().collect();
    order.sort_by(|(one, one_need), (other, other_need)| {
        let (a, b) = (&benches[*one], &benches[*other]);
        let by_kind = one_need.rank().cmp(&other_need.rank());
        by_kind
            .then(a.was_seen.cmp(&b.was_seen))
            .then_with(|| more_probable_first(*one_need, a, b))
    });
    order
}

fn more_probable_first(need: Need, one: &Bench, other: &Bench) -> Ordering {
    let probable = |bench: &Bench| match need {
        Need::Reading => bench.reading,
        Need::Kit => bench.kit,
        Need::Stuck | Need::Late | Need::Working | Need::Nothing => None,
    };
    let per_cent = |bench| (100.0 * probable(bench).unwrap_or(0.0)).round();
    per_cent(other).total_cmp(&per_cent(one))
}

/// What the other benches say of one.
struct Lesson {
    now: i64,
    /// Whether there is one going on.
    is_on: bool,
    /// When half of the benches had begun; `None` while they have not.
    half_began: Option<i64>,
}

impl Lesson {
    fn of(benches: &[Bench], now: i64, is_open: bool) -> Self {
        let newest = benches.iter().filter_map(|bench| bench.heard).max();
        let mut began: Vec<_> = benches.iter().filter_map(|bench| bench.began).collect();
        began.sort_unstable();
        Self {
            now,
            is_on: is_open && newest.is_some_and(|newest| now - newest < LESSON),
            half_began: began.get(benches.len().div_ceil(2).max(1) - 1).copied(),
        }
    }

    fn need(&self, bench: &Bench) -> Need {
        if bench.reading.is_some() {
            Need::Reading
        } else if bench.kit.is_some() {
            Need::Kit
        } else if self.is_on && self.is_stuck(bench) {
            Need::Stuck
        } else if self.is_on && self.is_late(bench) {
            Need::Late
        } else if bench.has_slip {
            Need::Working
        } else {
            Need::Nothing
        }
    }

    fn is_stuck(&self, bench: &Bench) -> bool {
        let is_writing = matches!(bench.stage, Stage::Writing | Stage::Saved);
        let is_silent = |heard| (STUCK_AFTER..LESSON).contains(&(self.now - heard));
        is_writing && bench.heard.is_some_and(is_silent)
    }

    /// A bench that was chosen and left again is heard of no more: it counts
    /// as one that nobody chose.
    fn is_late(&self, bench: &Bench) -> bool {
        let is_empty = matches!(bench.stage, Stage::NotBegun | Stage::Writing);
        let is_long_ago = |began| self.now - began >= LATE_AFTER;
        is_empty && bench.heard.is_none() && self.half_began.is_some_and(is_long_ago)
    }
}

#[cfg(test)]
mod tests;
