//! Settling a round and closing it: a point is marked again for the severe
//! marker's class, the pairs agree on the rest.

use std::collections::BTreeMap;

use server::clock::MINUTE;
use server::db::mark;
use server::db::round::Round;
use server::db::settlement::{About, Kind, NewSettlement};
use server::db::{Error, Writing};
use server::ids::{ClassSetId, RoundId, StaffId};
use server::report::marking;
use server::report::moderation::record::{Closing, close};
use server::report::moderation::settle::{Outcome, Standing, settle};
use server::report::moderation::settling::{self, Settling};

use crate::marker::EVEN;
use crate::pile::{Marker, marks};

/// Why a pair agrees on the second mark, in turn.
const REASONS: [&str; 4] = [
    "It is in their table, if not in their sentence.",
    "By the ruling of this round it is earned.",
    "The first reading missed the line at the foot of the page.",
    "It is there after all: read once more by both.",
];

/// Settles everything that is open, from a time on, in Unix ms.
pub(super) async fn settle_all(
    db: &mut Writing,
    round: &Round,
    head: StaffId,
    severe: Marker,
    from: i64,
) -> Result<(), Error> {
    mark_again(db, round, head, severe, from).await?;
    let mut at = from + 60 * MINUTE;
    loop {
        let settling = settling::load(db, round).await?;
        let Some((new, standing)) = next(&settling, round.id, at) else {
            return Ok(());
        };
        at += MINUTE;
        written(settle(db, round, &new, None, &[standing]).await?)?;
    }
}

/// Closes a round on which nothing is open.
pub(super) async fn close_round(
    db: &mut Writing,
    round: &Round,
    head: StaffId,
    at: i64,
) -> Result<(), Error> {
    match close(db, round.id, head, false, at).await? {
        Closing::Closed => Ok(()),
        Closing::NotNow | Closing::Open(_) | Closing::Pending => Err(Error::Stopped),
    }
}

fn written(outcome: Outcome) -> Result<(), Error> {
    match outcome {
        Outcome::Settled => Ok(()),
        Outcome::NotNow | Outcome::Met => Err(Error::Stopped),
    }
}

/// The next thing that a pair agrees on: of the first sheet on which something
/// is open a point beyond the tolerance, else the first on which they differ.
fn next(settling: &Settling, round_id: RoundId, at: i64) -> Option<(NewSettlement, Standing)> {
    let mut sheets = settling.sheets.iter();
    let sheet = sheets.find(|sheet| !sheet.open.is_settled())?;
    let is_undecided = |place: &usize| {
        let twice = sheet.points[*place].twice;
        twice.word.is_none() && twice.difference().is_some_and(|apart| apart != 0)
    };
    let beyond = sheet.open.points.first().copied();
    let place = beyond.or_else(|| (0..sheet.points.len()).find(is_undecided))?;
    let (point, marks) = (
        &settling.points_of(sheet)[place],
        sheet.points[place].twice.second?,
    );
    let new = NewSettlement {
        round_id,
        about: About::Sheet(sheet.pair.sheet.id),
        point_key: Some(point.key),
        kind: Kind::Agreed,
        agreed: Some(marks),
        reason: REASONS[place % REASONS.len()].to_owned(),
        staff_id: sheet.pair.first[place].as_ref()?.staff_id,
        at,
    };
    Some((new, Standing::on(sheet, place, point, marks)))
}

/// The point on which most is lost in the severe marker's classes is marked
/// again in the class where it is lost the most.
async fn mark_again(
    db: &mut Writing,
    round: &Round,
    head: StaffId,
    severe: Marker,
    at: i64,
) -> Result<(), Error> {
    let settling = settling::load(db, round).await?;
    let (class_set, key) = most_lost(&settling, severe.id).ok_or(Error::Stopped)?;
    let new = NewSettlement {
        round_id: round.id,
        about: About::Class(class_set),
        point_key: Some(key),
        kind: Kind::Again,
        agreed: None,
        reason: "Most of what is lost here is lost on this one point.".to_owned(),
        staff_id: head,
        at,
    };
    written(settle(db, round, &new, None, &[]).await?)?;
    let report = marking::load(db, class_set).await?;
    let place = report.points.iter().position(|point| point.key == key);
    let place = place.ok_or(Error::Stopped)?;
    let act = uuid::Uuid::new_v4().hyphenated().to_string();
    for (at_sheet, sheet) in report.sheets.iter().enumerate() {
        if sheet.points[place].mark.is_none() {
            continue;
        }
        // All points are looked at, since an eye's luck goes on from one to
        // the next, but only this one is marked.
        let mut seen = marks(&report, at_sheet, severe, EVEN, at + 30 * MINUTE);
        let mut new = seen.swap_remove(place);
        new.act.clone_from(&act);
        mark::insert(db, &new).await?;
    }
    Ok(())
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
