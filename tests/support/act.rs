//! Acts of tests and benchmarks: in the department that a new data file has,
//! and nobody is told.

use server::acts::{
    Act, Anyone, By, Doing, Invite, InviteFirst, MakeAccount, Staff, Told, perform,
};
use server::changes::Changes;
use server::db::{Error, Store};
use server::ids::{DepartmentId, StaffId};
use server::secret::sha256;

/// The department of a new data file.
pub(crate) const DEPARTMENT: DepartmentId = DepartmentId(1);

/// Whoever made the first account.
pub(crate) const HEAD: Staff = Staff {
    id: StaffId(1),
    is_head: true,
};

/// Performs an act, at `at` (Unix ms).
pub(crate) async fn act<A: Act<B>, B: By>(
    store: &Store,
    at: i64,
    by: B,
    act: A,
) -> Result<Told<A, B>, Error> {
    perform(store, &Changes::new(0), at, &(DEPARTMENT, by), act).await
}

/// Gives an account that nobody can sign in with: the first is the head of
/// department's, who invites the others.
pub(crate) struct Join(pub(crate) &'static str);

impl Act<Anyone> for Join {
    type Done = Staff;
    type Stop = Error;

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<Staff, Error> {
        let (at, token_hash) = (doing.at(), sha256(self.0));
        let link = token_hash.clone();
        let first = InviteFirst {
            token_hash: link.clone(),
        };
        if !doing.perform(at, by, first).await? {
            let invite = Invite { token_hash: link };
            doing.perform(at, HEAD, invite).await?;
        }
        let account = MakeAccount {
            token_hash,
            name: self.0.to_owned(),
            password_hash: "nobody signs in".to_owned(),
        };
        Ok(doing.perform(at, by, account).await?.unwrap())
    }
}
