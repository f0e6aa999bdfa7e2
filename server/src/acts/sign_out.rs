//! Somebody signs out.

use super::{Act, Doing, Staff};
use crate::db::{Error, sign_in};

/// Ends a session.
#[derive(Debug)]
pub struct SignOut {
    /// SHA-256 of the session's token.
    pub token_hash: String,
}

impl Act<Staff> for SignOut {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        sign_in::delete(doing.db, &self.token_hash).await
    }
}
