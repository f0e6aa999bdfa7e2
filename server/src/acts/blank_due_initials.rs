//! The day has come that the school set for its initials.

use jiff::civil::Date;

use super::blank_initials::blank;
use super::{Act, Anyone, Doing};
use crate::db::{Error, department};

/// Blanks all initials, if they were kept until a day that has come.
#[derive(Debug)]
pub struct BlankDueInitials {
    /// The day, in the school's zone.
    pub today: Date,
}

impl Act<Anyone> for BlankDueInitials {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        let department = department::get(doing.db).await?;
        if department.keeps_initials && !department.keeps_initials_on(self.today) {
            blank(by, doing).await?;
        }
        Ok(())
    }
}
