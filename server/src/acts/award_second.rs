//! A second mark is given.

use super::{Act, Doing, NotDone, Refused, Staff, refuse_if};
use crate::db::second_mark::{self, NewSecondMark};
use crate::db::{Error, round};
use crate::ids::{RoundId, RoundSheetId};
use crate::report::desk::Unfit;
use crate::report::desk::second::{self, NoDesk};
use crate::report::moderation::workload::being_marked;

/// Gives a second mark on one point of a sheet of a round, changes it or takes
/// it back, until everyone's are shown. Pressed twice, it is kept once.
#[derive(Clone, Debug)]
pub struct AwardSecond {
    /// In which round.
    pub round: RoundId,
    /// On which sheet.
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
    /// There is no such point.
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
        let new = NewSecondMark {
            round_sheet_id: self.sheet,
            marking_point_id: desk.points[point].id,
            awarded: self.marks,
            note: self.reason,
            staff_id: by.id,
            marked_at: doing.at,
        };
        if !stands(doing, &new).await? {
            second_mark::insert(doing.db, &new).await?;
        }
        Ok(())
    }
}

/// Whether a point stands already as it would with a new mark.
async fn stands(doing: &mut Doing<'_>, new: &NewSecondMark) -> Result<bool, Error> {
    let own = second_mark::list_own(doing.db, new.round_sheet_id, new.staff_id).await?;
    let mut own = own.iter();
    Ok(
        match own.find(|mark| mark.marking_point_id == new.marking_point_id) {
            Some(mark) => mark.awarded == new.awarded && mark.note == new.note,
            None => new.awarded.is_none() && new.note.is_empty(),
        },
    )
}
