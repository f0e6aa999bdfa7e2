//! Somebody signs in.

use super::{Act, Doing, Event, Staff};
use crate::db::{Error, sign_in};

/// Starts a session of somebody whose password was right, and ends the one
/// that their browser held before.
#[derive(Debug)]
pub struct SignIn {
    /// SHA-256 of the session's token.
    pub token_hash: String,
    /// SHA-256 of the token that the browser held.
    pub old_token_hash: Option<String>,
}

impl Act<Staff> for SignIn {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        if let Some(old) = self.old_token_hash {
            sign_in::delete(doing.db, &old).await?;
        }
        sign_in::insert(doing.db, &self.token_hash, by.id, doing.at).await?;
        doing.record(by, &Event::SignedIn).await
    }
}
