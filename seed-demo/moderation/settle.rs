//! Settling a round: a point is marked again for the severe marker's class,
//! the pairs agree on the rest.

use std::collections::BTreeMap;

use server::acts::{Doing, Holds, MarkAgain, Settle, Staff};
use server::clock::MINUTE;
use server::db::{Error, round};
use server::ids::{ClassSetId, RoundId, StaffId};
use server::report::desk::first;
use server::report::moderation::settling::{self, Settling};

use super::Held;
use crate::department::done;
use crate::marker::EVEN;

/// Why a pair agrees on the second mark, in turn.
const REASONS: [&str; 4] = [
    "It is in their table, if not in their sentence.",
    "By the ruling of this round it is earned.",
    "The first reading missed the line at the foot of the page.",
    "It is there after all: read once more by both.",
];

impl Held {
    /// Settles everything that is open.
    pub(super) async fn settle(&self, doing: &mut Doing<'_>, id: RoundId) -> Result<(), Error> {
        let round = round::get(doing.read(), id).await?;
        let mut at = self.school_days_later(9);
        let settling = settling::load(doing.read(), &round).await?;
        self.mark_again(doing, at, id, &settling).await?;
        at += 60 * MINUTE;
        loop {
            let settling = settling::load(doing.read(), &round).await?;
            let Some((by, act)) = next(&settling, id) else {
                return Ok(());
            };
            done(doing.perform(at, by, act).await?)?;
            at += MINUTE;
        }
    }

    /// The point on which most is lost in the severe marker's classes is
    /// marked again in the class where it is lost the most.
    async fn mark_again(
        &self,
        doing: &mut Doing<'_>,
        at: i64,
        round: RoundId,
        settling: &Settling,
    ) -> Result<(), Error> {
        let mut markers = self.markers.iter();
        let severe = markers.find(|marker| marker.temper() != EVEN);
        let severe = severe.ok_or(Error::Missing)?;
        let (class_set, key) = most_lost(settling, severe.staff.id).ok_or(Error::Missing)?;
        let act = MarkAgain {
            round,
            class_set,
            point: Some(key),
            reason: "Most of what is lost here is lost on this one point.".to_owned(),
            takes_back: None,
        };
        done(doing.perform(at, self.head, act).await?)?;
        let desk = first::load(doing.read(), class_set, None).await?;
        let point = desk.point(key).ok_or(Error::Missing)?;
        let sheets = 0..desk.sheets.len();
        let marked = sheets.filter(|sheet| desk.standing(*sheet, point).mark.is_some());
        // All points are looked at, since an eye's luck goes on from one to the
        // next, but only this one is marked.
        let given = marked.map(|sheet| severe.gives(&desk, sheet, EVEN).swap_remove(point));
        let given = given.collect();
        severe.award(doing, at + 30 * MINUTE, &desk, given).await
    }
}

/// Returns the next thing that a pair agrees on: of the first sheet on which
/// something is open a point beyond the tolerance, else the first on which
/// they differ.
fn next(settling: &Settling, round: RoundId) -> Option<(Staff, Settle)> {
    let mut sheets = settling.sheets.iter();
    let sheet = sheets.find(|sheet| !sheet.open.is_settled())?;
    let is_undecided = |place: &usize| {
        let twice = sheet.points[*place].twice;
        twice.word.is_none() && twice.difference().is_some_and(|apart| apart != 0)
    };
    let beyond = sheet.open.points.first().copied();
    let place = beyond.or_else(|| (0..sheet.points.len()).find(is_undecided))?;
    let point = &sheet.pair.points[place];
    let (key, marks) = (point.asked.key, sheet.points[place].twice.second?);
    let by = Staff {
        id: point.first.as_ref()?.staff_id,
        is_head: false,
    };
    let act = Settle {
        round,
        sheet: sheet.pair.sheet.id,
        holds: Holds::Point(key, marks),
        reason: REASONS[place % REASONS.len()].to_owned(),
        seen: None,
        newest: sheet.points[place].now.as_ref().map(|mark| mark.id),
    };
    Some((by, act))
}

/// Returns the class and the point of which the second marks of this marker's
/// sheets are above the first by the most marks.
fn most_lost(settling: &Settling, marker: StaffId) -> Option<(ClassSetId, i64)> {
    let mut lost: BTreeMap<(ClassSetId, i64), i64> = BTreeMap::new();
    for sheet in &settling.sheets {
        let class_set = sheet.pair.sheet.class_set_id;
        for (marked, standing) in sheet.each() {
            let first = marked.first.as_ref();
            if first.is_some_and(|mark| mark.staff_id == marker) {
                let above = standing.twice.difference().unwrap_or(0);
                *lost.entry((class_set, marked.asked.key)).or_default() += above;
            }
        }
    }
    lost.into_iter()
        .max_by_key(|(_, above)| *above)
        .map(|(what, _)| what)
}
