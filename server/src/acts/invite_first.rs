//! The program starts: whoever reads its output may make the first account.

use super::{Act, Anyone, Doing};
use crate::clock::HOUR;
use crate::db::staff::{self, Role};
use crate::db::{Error, invitation};

/// The first link is good for so long, in ms; a restart prints another.
const GOOD_FOR: i64 = 24 * HOUR;

/// Makes the link to a department's first account, while nobody has one.
/// Links of earlier starts are good no more. False where somebody has one.
#[derive(Debug)]
pub struct InviteFirst {
    /// SHA-256 of the link's token.
    pub token_hash: String,
}

impl Act<Anyone> for InviteFirst {
    type Done = bool;
    type Stop = Error;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<bool, Error> {
        invitation::delete_printed(doing.db).await?;
        if staff::count(doing.db).await? > 0 {
            return Ok(false);
        }
        let (link, at, until) = (&self.token_hash, doing.at, doing.at + GOOD_FOR);
        invitation::insert(doing.db, link, Role::Head, None, at, until).await?;
        Ok(true)
    }
}
