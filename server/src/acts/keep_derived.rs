//! What was made when somebody looked is kept.

use super::{Act, Anyone, Doing, perform_unheard};
use crate::db::derived::{self, Derived};
use crate::db::{Error, Store};
use crate::ids::DepartmentId;

/// Keeps what was made, in the place of the one before.
struct KeepDerived(Derived);

impl Act<Anyone> for KeepDerived {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        derived::keep(doing.db, &self.0, doing.at).await
    }
}

/// Keeps what was made, one after the other, beside whatever else is done.
/// Nobody waits for it, and what cannot be kept is made again.
pub fn keep_derived(
    store: &Store,
    at: i64,
    department: DepartmentId,
    made: impl IntoIterator<Item = Derived>,
) {
    let made: Vec<Derived> = made.into_iter().collect();
    if made.is_empty() {
        return;
    }
    let store = store.clone();
    tokio::spawn(async move {
        for one in made {
            if let Err(error) = perform_unheard(&store, at, department, KeepDerived(one)).await {
                tracing::warn!(%error, "what was made was not kept");
                return;
            }
        }
    });
}
