//! A colleague is invited.

use super::{Act, Doing, Staff, head};
use crate::clock::HOUR;
use crate::db::staff::Role;
use crate::db::{Error, invitation};

/// A colleague's link is good for a week, in ms.
const GOOD_FOR: i64 = 7 * 24 * HOUR;

/// Makes a link by which a teacher makes an account. Only a head of
/// department gives one out.
#[derive(Debug)]
pub struct Invite {
    /// SHA-256 of the link's token.
    pub token_hash: String,
}

impl Act<Staff> for Invite {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        head(by)?;
        let (link, at, until) = (&self.token_hash, doing.at, doing.at + GOOD_FOR);
        invitation::insert(doing.db, link, Role::Teacher, Some(by.id), at, until).await
    }
}
