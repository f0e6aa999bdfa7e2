//! An account is made from a link.

use super::{Act, Anyone, Doing, Event, NotDone, Refused, Staff};
use crate::db::invitation;
use crate::db::staff::{self, Role};

/// Makes the account that a link is for. A link makes one, and it stays good
/// where it made none.
#[derive(Debug)]
pub struct MakeAccount {
    /// SHA-256 of the link's token.
    pub token_hash: String,
    /// The name as shown, one line, at most 80 characters.
    pub name: String,
    /// Argon2id, PHC string form.
    pub password_hash: String,
}

/// Why no account was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoAccount {
    /// The link was used, or it is too old.
    Lapsed,
    /// Somebody has an account with this name.
    NameTaken,
}

impl Act<Anyone> for MakeAccount {
    type Done = Staff;
    type Stop = NotDone<NoAccount>;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<Staff, Self::Stop> {
        let role = invitation::find_role(doing.db, &self.token_hash, doing.at).await?;
        let role = role.ok_or(Refused(NoAccount::Lapsed))?;
        let Self {
            name,
            password_hash,
            ..
        } = &self;
        let id = staff::insert(doing.db, name, password_hash, role, doing.at).await?;
        let id = id.ok_or(Refused(NoAccount::NameTaken))?;
        invitation::delete(doing.db, &self.token_hash).await?;
        let made = Staff {
            id,
            is_head: role == Role::Head,
        };
        doing.record(made, &Event::AccountMade(self.name)).await?;
        Ok(made)
    }
}
