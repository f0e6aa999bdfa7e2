//! What first and second markers differ on is settled.
//!
//! As a row of `mark` like any other, with the round and the reason in its
//! reason, so that marking pages, feedback and files need not know of rounds;
//! `settled_mark` says which rows these are, and Undo on the marking pages
//! leaves them alone. `acts/settle.rs` is the one place that writes them, and
//! only where another mark stands than the one decided. What is still open is
//! worked out each time (`analysis::moderation::settling`), never stored.

use super::{Act, Doing, Event, NotDone, Refused, Staff, refuse_if};
use crate::db::mark::{self, NewMark};
use crate::db::round::{self, Round, Step};
use crate::db::scheme::MarkingPoint;
use crate::db::settlement::{self, About, Kind, NewSettlement};
use crate::ids::{MarkId, RoundId, RoundSheetId, SettlementId};
use crate::report::moderation::may_see::{self, Hidden};
use crate::report::moderation::settling::{Settling, SettlingPoint, SettlingSheet, newest};

/// Longest reason, in characters.
const LONGEST_REASON: usize = 800;

/// Decides which mark holds on a sheet of the sample. The two who marked it do
/// so, or a head of department, and only where nobody has marked or settled it
/// since the page that they saw.
///
/// Where another mark stands than it decides, the one that it decides is
/// given, openly: as a mark among the others, with the round and the reason
/// beside it.
#[derive(Clone, Debug)]
pub struct Settle {
    pub round: RoundId,
    pub sheet: RoundSheetId,
    pub holds: Holds,
    /// Why: 1 to 800 characters.
    pub reason: String,
    /// The newest word on the same thing that was on the page.
    pub seen: Option<SettlementId>,
    /// The newest mark on the same thing that was on the page.
    pub newest: Option<MarkId>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// So many marks on the point with this key.
    Point(i64, i64),
    /// All first marks of the sheet: those of points that were decided on by
    /// themselves aside, and of points that are marked again.
    Whole,
}

/// Why nothing is settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotSettled {
    /// The sheets of the round are not for them to see.
    Hidden(Hidden),
    /// The round is closed.
    Closed,
    /// There is no such sheet that they may see.
    NoSuchSheet,
    /// There is no such class in the round.
    NoSuchClass,
    /// There is no such point with a first mark.
    NoSuchPoint,
    /// The point does not have so many marks, or nothing was chosen.
    NoSuchMarks,
    /// Nobody said why.
    NoReason,
    /// The reason is longer than 800 characters.
    LongReason,
    /// Somebody has marked or settled it since.
    Met,
}

/// Finds the round and what of it somebody settles, while it can be.
pub(super) async fn open(
    doing: &mut Doing<'_>,
    by: Staff,
    id: RoundId,
) -> Result<(Round, Settling), NotDone<NotSettled>> {
    let round = round::get(doing.db, id).await?;
    let settling = may_see::settling(doing.db, &round, by.id, by.is_head).await?;
    let settling = settling.map_err(|hidden| Refused(NotSettled::Hidden(hidden)))?;
    refuse_if(round.step == Some(Step::Closed), NotSettled::Closed)?;
    Ok((round, settling))
}

/// Says what is wrong with a reason.
pub(super) fn check_reason(reason: &str) -> Result<(), NotSettled> {
    match reason.chars().count() {
        0 => Err(NotSettled::NoReason),
        1..=LONGEST_REASON => Ok(()),
        _ => Err(NotSettled::LongReason),
    }
}

impl Act<Staff> for Settle {
    type Done = ();
    type Stop = NotDone<NotSettled>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let (round, settling) = open(doing, by, self.round).await?;
        let mut sheets = settling.sheets.iter();
        let sheet = sheets.find(|one| one.pair.sheet.id == self.sheet);
        let sheet = sheet.ok_or(Refused(NotSettled::NoSuchSheet))?;
        let stand = self.stand(&settling, sheet).map_err(Refused)?;
        let class = (!stand.is_empty()).then_some(sheet.pair.sheet.class_set_id);
        let (key, agreed) = match self.holds {
            Holds::Point(key, marks) => {
                let is_first = stand
                    .iter()
                    .any(|(_, standing, _)| standing.twice.first == Some(marks));
                (Some(key), (!is_first).then_some(marks))
            }
            Holds::Whole => (None, None),
        };
        let new = NewSettlement {
            round_id: round.id,
            about: About::Sheet(self.sheet),
            point_key: key,
            kind: agreed.map_or(Kind::FirstStands, |_| Kind::Agreed),
            agreed,
            reason: self.reason,
            staff_id: by.id,
            at: doing.at,
        };
        let id = settlement::insert(doing.db, &new).await?;
        let act = uuid::Uuid::new_v4().hyphenated().to_string();
        for (point, standing, marks) in stand {
            if standing.awarded() != Some(marks) {
                let mark = NewMark {
                    sheet_id: sheet.pair.sheet.sheet_id,
                    marking_point_id: point.id,
                    revision_id: sheet.pair.sheet.revision_id,
                    awarded: Some(marks),
                    suggested: None,
                    reason: String::new(),
                    settlement_id: Some(id),
                    act: act.clone(),
                    undoes: None,
                    staff_id: by.id,
                    marked_at: doing.at,
                };
                let mark = mark::insert(doing.db, &mark).await?;
                settlement::insert_mark(doing.db, id, mark).await?;
            }
        }
        let event = Event::Settled(round.id, id, class);
        Ok(doing.record(by, &event).await?)
    }
}

/// A mark that shall stand, after its point and how that stands.
type Stands<'a> = (&'a MarkingPoint, &'a SettlingPoint, i64);

impl Settle {
    /// Returns the marks that shall stand, if they can.
    fn stand<'a>(
        &self,
        settling: &Settling,
        sheet: &'a SettlingSheet,
    ) -> Result<Vec<Stands<'a>>, NotSettled> {
        let (key, newest_mark) = match self.holds {
            Holds::Point(key, _) => (Some(key), None),
            Holds::Whole => (None, Some(sheet.newest_mark())),
        };
        let word = newest(&settling.settlements, About::Sheet(self.sheet), key);
        let is_met = word.map(|one| one.id) != self.seen;
        if is_met || newest_mark.is_some_and(|mark| mark != self.newest) {
            return Err(NotSettled::Met);
        }
        let stand = match self.holds {
            Holds::Point(key, marks) => vec![self.on_point(sheet, key, marks)?],
            Holds::Whole => {
                let undecided = sheet.each().filter(|(_, point)| point.twice.word.is_none());
                let first = undecided.filter_map(|(marked, standing)| {
                    Some((&marked.asked, standing, standing.twice.first?))
                });
                first.collect()
            }
        };
        check_reason(&self.reason)?;
        Ok(stand)
    }

    fn on_point<'a>(
        &self,
        sheet: &'a SettlingSheet,
        key: i64,
        marks: i64,
    ) -> Result<Stands<'a>, NotSettled> {
        let mut points = sheet.each();
        let found = points.find(|(marked, _)| marked.asked.key == key);
        let found = found.filter(|(_, standing)| standing.twice.first.is_some());
        let (marked, standing) = found.ok_or(NotSettled::NoSuchPoint)?;
        if standing.now.as_ref().map(|mark| mark.id) != self.newest {
            return Err(NotSettled::Met);
        }
        if !(0..=i64::from(marked.asked.point.marks)).contains(&marks) {
            return Err(NotSettled::NoSuchMarks);
        }
        Ok((&marked.asked, standing, marks))
    }
}
