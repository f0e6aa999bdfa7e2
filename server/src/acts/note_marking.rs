//! A note while marking.

use super::{Act, AddNote, Doing, NotDone, NotNoted, Refused, Staff, Stop as _, refuse_if};
use crate::db::comment;

/// Longest note that fits the paper that a group gets back, and the bank of
/// comments, in characters.
const LONGEST_FOR_GROUP: usize = 500;

/// Adds a note to a sheet while it is marked, and puts it into the bank of
/// comments where that is wished and the group is to read it.
#[derive(Clone, Debug)]
pub struct NoteMarking {
    pub note: AddNote,
    /// Whether it is to be offered again.
    pub for_bank: bool,
}

/// Why a note is not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotKept {
    /// As any note.
    NotNoted(NotNoted),
    /// It is for the group and longer than 500 characters.
    LongForGroup,
}

impl Act<Staff> for NoteMarking {
    type Done = ();
    type Stop = NotDone<NotKept>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let Self { note, for_bank } = self;
        let is_long = note.body.chars().count() > LONGEST_FOR_GROUP;
        refuse_if(is_long && note.for_group, NotKept::LongForGroup)?;
        let for_bank = (for_bank && note.for_group).then(|| note.body.clone());
        let noted = NotDone::told(note.perform(by, doing).await)?;
        noted.map_err(|why| Refused(NotKept::NotNoted(why)))?;
        if let Some(body) = for_bank {
            comment::insert(doing.db, &body, Some(by.id), doing.at).await?;
        }
        Ok(())
    }
}
