//! A group begins an attempt at its sheet.

use super::{Act, Doing, NotDone, Refused, refuse_if};
use crate::db::class_set::State;
use crate::db::{Error, draft, visit};
use crate::ids::{SheetId, VisitId};

/// Opens a draft from the sheet's present version, or finds the one that this
/// visit has open: its key goes into the page, and makes a hand-in happen once.
#[derive(Debug)]
pub struct OpenDraft;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoDraft {
    /// The class set is closed.
    Closed,
    /// The visit is over.
    Left,
}

impl Act<VisitId> for OpenDraft {
    type Done = String;
    type Stop = NotDone<NoDraft>;

    async fn perform(self, by: VisitId, doing: &mut Doing<'_>) -> Result<String, Self::Stop> {
        let place = visit::find_place(doing.db, by, doing.at).await?;
        let place = place.ok_or(Refused(NoDraft::Left))?;
        refuse_if(place.state == State::Closed, NoDraft::Closed)?;
        Ok(open(doing, place.sheet_id, by).await?)
    }
}

/// Returns the key of the visit's open draft, made if need be.
pub(super) async fn open(
    doing: &mut Doing<'_>,
    sheet: SheetId,
    visit: VisitId,
) -> Result<String, Error> {
    match draft::find_open(doing.db, sheet, visit).await? {
        Some(key) => Ok(key),
        None => draft::insert(doing.db, sheet, visit, doing.at).await,
    }
}
