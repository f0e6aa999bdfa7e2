//! A session is in use.

use super::{Act, Doing, Staff};
use crate::db::{Error, sign_in};

/// Writes down that a session is in use, so that it goes on.
#[derive(Debug)]
pub struct KeepSeen {
    /// SHA-256 of the session's token.
    pub token_hash: String,
}

impl Act<Staff> for KeepSeen {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        sign_in::update_seen(doing.db, &self.token_hash, doing.at).await
    }
}
