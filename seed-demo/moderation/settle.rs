//! Settling a round and closing it: a point is marked again for the severe
//! marker's class, the pairs agree on the rest.

use std::collections::BTreeMap;

use server::acts::{CloseRound, Doing, Holds, MarkAgain, Settle, Staff};
use server::clock::MINUTE;
use server::db::Error;
use server::db::round::Round;
use server::ids::{ClassSetId, RoundId, StaffId};
use server::report::desk::first;
use server::report::moderation::settling::{self, Settling};

use crate::department::done;
use crate::marker::EVEN;
use crate::pile::{Marker, award, marks};

/// Why a pair agrees on the second mark, in turn.
const REASONS: [&str; 4] = [
    "It is in their table, if not in their sentence.",
    "By the ruling of this round it is earned.",
    "The first reading missed the line at the foot of the page.",
    "It is there after all: read once more by both.",
];

/// Settles everything that is open, from a time on, in Unix ms.
pub(super) async fn settle_all(
    doing: &mut Doing<'_>,
    round: &Round,
    head: Staff,
    severe: Marker,
    from: i64,
) -> Result<(), Error> {
    mark_again(doing, round, head, severe, from).await?;
    let mut at = from + 60 * MINUTE;
    loop {
        let settling = settling::load(doing.read(), round).await?;
        let Some((by, act)) = next(&settling, round.id) else {
            return Ok(());
        };
        done(doing.perform(at, by, act).await?)?;
        at += MINUTE;
    }
}

/// Closes a round on which nothing is open.
pub(super) async fn close_round(
    doing: &mut Doing<'_>,
    round: &Round,
    head: Staff,
    at: i64,
) -> Result<(), Error> {
    let act = CloseRound {
        round: round.id,
        although_pending: false,
    };
    done(doing.perform(at, head, act).await?)
}

/// The next thing that a pair agrees on: of the first sheet on which something
/// is open a point beyond the tolerance, else the first on which they differ.
fn next(settling: &Settling, round: RoundId) -> Option<(Staff, Settle)> {
    let mut sheets = settling.sheets.iter();
    let sheet = sheets.find(|sheet| !sheet.open.is_settled())?;
    let is_undecided = |place: &usize| {
        let twice = sheet.points[*place].twice;
        twice.word.is_none() && twice.difference().is_some_and(|apart| apart != 0)
    };
    let beyond = sheet.open.points.first().copied();
    let place = beyond.or_else(|| (0..sheet.points.len()).find(is_undecided))?;
    let (key, marks) = (
        settling.points_of(sheet)[place].key,
        sheet.points[place].twice.second?,
    );
    let by = Staff {
        id: sheet.pair.first[place].as_ref()?.staff_id,
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

/// The point on which most is lost in the severe marker's classes is marked
/// again in the class where it is lost the most.
async fn mark_again(
    doing: &mut Doing<'_>,
    round: &Round,
    head: Staff,
    severe: Marker,
    at: i64,
) -> Result<(), Error> {
    let settling = settling::load(doing.read(), round).await?;
    let (class_set, key) = most_lost(&settling, severe.staff.id).ok_or(Error::Missing)?;
    let act = MarkAgain {
        round: round.id,
        class_set,
        point: Some(key),
        reason: "Most of what is lost here is lost on this one point.".to_owned(),
        takes_back: None,
    };
    done(doing.perform(at, head, act).await?)?;
    let desk = first::load(doing.read(), class_set, None).await?;
    let place = desk.point(key).ok_or(Error::Missing)?;
    let marked = (0..desk.sheets.len()).filter(|sheet| {
        let standing = desk.standing(*sheet, place);
        standing.mark.is_some()
    });
    // All points are looked at, since an eye's luck goes on from one to the
    // next, but only this one is marked.
    let given = marked.map(|sheet| marks(&desk, sheet, severe, EVEN).swap_remove(place));
    let given = given.collect();
    award(doing, &desk, severe, given, at + 30 * MINUTE).await
}

/// The class and the point of which the second marks of this marker's sheets
/// are above the first by the most marks.
fn most_lost(settling: &Settling, marker: StaffId) -> Option<(ClassSetId, i64)> {
    let mut lost: BTreeMap<(ClassSetId, i64), i64> = BTreeMap::new();
    for sheet in &settling.sheets {
        let class_set = sheet.pair.sheet.class_set_id;
        let points = settling.points_of(sheet).iter().zip(&sheet.points);
        for ((point, standing), first) in points.zip(&sheet.pair.first) {
            if first.as_ref().is_some_and(|mark| mark.staff_id == marker) {
                let above = standing.twice.difference().unwrap_or(0);
                *lost.entry((class_set, point.key)).or_default() += above;
            }
        }
    }
    lost.into_iter()
        .max_by_key(|(_, above)| *above)
        .map(|(what, _)| what)
}
