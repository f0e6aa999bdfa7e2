//! A note is taken back.

use super::{Act, Doing, NotDone, Staff, refuse_if};
use crate::db::annotation;
use crate::ids::{AnnotationId, SheetId};

/// Takes a note of a sheet back; it is kept, and not shown any more.
#[derive(Clone, Debug)]
pub struct WithdrawNote {
    pub sheet: SheetId,
    pub note: AnnotationId,
}

/// The note is not on the sheet, or not any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSuchNote;

impl Act<Staff> for WithdrawNote {
    type Done = ();
    type Stop = NotDone<NoSuchNote>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let notes = annotation::list(doing.db, self.sheet).await?;
        refuse_if(!notes.iter().any(|note| note.id == self.note), NoSuchNote)?;
        Ok(annotation::insert_withdrawal(doing.db, self.note, by.id, doing.at).await?)
    }
}
