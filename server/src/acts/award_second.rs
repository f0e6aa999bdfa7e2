//! A second mark is given.

use super::{Act, Doing, NotDone, Refused, Staff, refuse_if};
use crate::db::{round, second_mark};
use crate::ids::{RoundId, RoundSheetId};
use crate::report::desk::Unfit;
use crate::report::desk::second::{self, NoDesk};
use crate::report::moderation::workload::being_marked;

/// Gives a second mark on one point of a sheet of a round, changes it or takes
/// it back, until everyone's are shown. Pressed twice, it is kept once.
#[derive(Clone, Debug)]
pub struct AwardSecond {
    pub round: RoundId,
    pub sheet: RoundSheetId,
    /// Key of the point.
    pub key: i64,
    /// How many; `None` takes an earlier mark back.
    pub marks: Option<i64>,
    /// Why; blank where nothing is to be said.
    pub reason: String,
}

/// Why no mark is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotMarked {
    /// The sheet is not on their desk.
    NoDesk(NoDesk),
    NoSuchPoint,
    /// The mark cannot be given.
    Unfit(Unfit),
    /// Everyone's marks have been shown.
    Shown,
}

impl Act<Staff> for AwardSecond {
    type Done = ();
    type Stop = NotDone<NotMarked>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let round = round::get(doing.db, self.round).await?;
        let sheet = second::find(doing.db, &round, self.sheet, by.id).await?;
        let sheet = sheet.map_err(|none| Refused(NotMarked::NoDesk(none)))?;
        let is_open = Some(sheet.kind) == being_marked(round.step);
        let desk = second::load(doing.db, sheet, by.id).await?;
        let point = desk.point(self.key);
        let point = point.ok_or(Refused(NotMarked::NoSuchPoint))?;
        desk.check((0, point), self.marks, &self.reason)
            .map_err(|unfit| Refused(NotMarked::Unfit(unfit)))?;
        refuse_if(!is_open, NotMarked::Shown)?;
        let point = desk.points[point].id;
        let (marks, reason) = (self.marks, self.reason.as_str());
        let own = second_mark::list_own(doing.db, self.sheet, by.id).await?;
        let mut own = own.iter();
        let stands = match own.find(|mark| mark.marking_point_id == point) {
            Some(mark) => mark.awarded == marks && mark.note == reason,
            None => marks.is_none() && reason.is_empty(),
        };
        if !stands {
            let at = doing.at;
            second_mark::insert(doing.db, self.sheet, point, marks, reason, by.id, at).await?;
        }
        Ok(())
    }
}
