//! The register may hold initials.

use jiff::civil::Date;

use super::{Act, Doing, Event, Staff, head};
use crate::db::{Error, department};

/// Lets the register hold pupils' initials until a day. Only a head of
/// department says so.
#[derive(Debug)]
pub struct KeepInitials {
    /// The day on which they are blanked.
    pub until: Date,
}

impl Act<Staff> for KeepInitials {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        head(by)?;
        department::keep_initials(doing.db, Some(self.until)).await?;
        doing.record(by, &Event::InitialsKept(self.until)).await
    }
}
