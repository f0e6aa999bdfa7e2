//! Initials are no more kept.

use super::{Act, By, Doing, Event, Staff, head};
use crate::db::{Error, department, register};

/// Ends the keeping of initials, and blanks those that there are. Only a head
/// of department does it, and is asked first where any would go.
#[derive(Debug)]
pub struct BlankInitials {
    /// Whether they were asked and said yes.
    pub is_confirmed: bool,
}

/// What became of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blanking {
    /// There are none any more.
    Done,
    /// Those of so many pupils would go. Nothing was changed.
    AskFirst(i64),
}

impl Act<Staff> for BlankInitials {
    type Done = Blanking;
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Blanking, Error> {
        head(by)?;
        let count = register::count_initials(doing.db).await?;
        if count > 0 && !self.is_confirmed {
            return Ok(Blanking::AskFirst(count));
        }
        blank(by, doing).await?;
        Ok(Blanking::Done)
    }
}

/// Blanks all initials of the department.
pub(super) async fn blank(by: impl By, doing: &mut Doing<'_>) -> Result<(), Error> {
    let were_kept = department::get(doing.db).await?.keeps_initials;
    department::keep_initials(doing.db, None).await?;
    let count = register::blank_initials(doing.db).await?;
    if were_kept || count > 0 {
        doing.record(by, &Event::InitialsBlanked(count)).await?;
    }
    Ok(())
}
