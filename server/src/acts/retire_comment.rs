//! A comment of the bank is no more offered, or is again.

use super::{Act, Doing, Staff};
use crate::db::{Error, comment};
use crate::ids::CommentId;

/// Offers a comment no more, or again.
#[derive(Debug)]
pub struct RetireComment {
    pub comment: CommentId,
    /// No more, or again.
    pub is_retired: bool,
}

impl Act<Staff> for RetireComment {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        comment::retire(doing.db, self.comment, self.is_retired).await
    }
}
