//! Earlier marks still hold.

use super::award::{ToWrite, write};
use super::{Act, Doing, NotDone, Refused, Staff};
use crate::db::Error;
use crate::ids::{ClassSetId, SheetId};
use crate::report::desk::{Desk, first};

/// Says that earlier marks of a sheet still hold.
///
/// Each is given again on what is there now. One is left out where the point has fewer marks now, or where
/// it goes against what the group's figures show and nobody said why.
#[derive(Clone, Debug)]
pub struct StillHolds {
    pub class_set: ClassSetId,
    pub sheet: SheetId,
    /// Key of the point; `None`: all of them.
    pub point: Option<i64>,
}

/// None of the marks can simply be given again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HoldsNoMore;

impl Act<Staff> for StillHolds {
    /// The key of the first point.
    type Done = i64;
    type Stop = NotDone<HoldsNoMore>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<i64, Self::Stop> {
        let desk = first::load(doing.db, self.class_set, Some(self.sheet)).await?;
        if desk.sheets.is_empty() {
            return Err(Error::NoSuch.into());
        }
        let points = desk.points.iter().enumerate();
        let meant = points.filter(|(_, point)| self.point.is_none_or(|key| point.key == key));
        let marks = meant.filter_map(|(point, _)| again(&desk, point));
        let marks: Vec<ToWrite> = marks.collect();
        let first = marks.first().map(|mark| desk.points[mark.point].key);
        let first = first.ok_or(Refused(HoldsNoMore))?;
        write(doing, by, &desk, marks).await?;
        Ok(first)
    }
}

/// Gives an earlier mark of the one sheet again, as it is, where that can be.
fn again(desk: &Desk, point: usize) -> Option<ToWrite> {
    let standing = desk.standing(0, point);
    let mark = standing.mark.as_ref().filter(|_| standing.is_earlier())?;
    let fit = desk.check((0, point), Some(mark.awarded), &mark.reason);
    fit.is_ok().then(|| ToWrite {
        sheet: 0,
        point,
        marks: Some(mark.awarded),
        reason: mark.reason.clone(),
        settlement_id: mark.settlement_id,
    })
}
