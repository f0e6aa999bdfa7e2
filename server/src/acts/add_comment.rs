//! A comment goes into the department's bank.

use super::{Act, Doing, Staff};
use crate::db::{Error, comment};

/// Puts a comment into the bank; one that is there already is offered again.
#[derive(Debug)]
pub struct AddComment {
    /// The comment, at most 500 characters.
    pub body: String,
}

impl Act<Staff> for AddComment {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        comment::insert(doing.db, &self.body, Some(by.id), doing.at).await
    }
}
