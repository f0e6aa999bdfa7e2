//! The data file: one writer, append-only history.

mod history;
mod panic;
mod plans;
mod writer;

use server::acts::{Act, Anyone, InviteFirst, MakeAccount, Staff, perform};
use server::changes::Changes;
use server::db::{Error, Store};
use server::ids::DEPARTMENT;

/// Performs an act about which nobody is told.
async fn act<A: Act>(store: &Store, by: A::By, act: A) -> Result<A::Done, Error> {
    perform(store, &Changes::new(0), 0, &(DEPARTMENT, by), act).await
}

/// Makes the account of a head of department.
async fn head(store: &Store) -> Staff {
    let token_hash = "of the link".to_owned();
    let invite = InviteFirst {
        token_hash: token_hash.clone(),
    };
    assert!(act(store, Anyone, invite).await.unwrap(), "the first");
    let make = MakeAccount {
        token_hash,
        name: "Ms Fell".to_owned(),
        password_hash: "nobody signs in".to_owned(),
    };
    act(store, Anyone, make).await.unwrap().unwrap()
}
