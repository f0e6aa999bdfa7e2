//! Opening the data file: what comes with the program is put there.

use std::path::Path;

use tokio::task::JoinHandle;

use super::{Act, Anyone, Doing, perform_unheard};
use crate::db::{Error, Store, comment, scheme, writer};

/// Most writes to a commit, as the program runs.
pub const BATCH: usize = writer::BATCH;

/// Puts the mark schemes and comments that come with the program into a
/// department that has none.
#[derive(Debug)]
struct FillHouse;

impl Act<Anyone> for FillHouse {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        scheme::insert_house(doing.db).await?;
        comment::insert_house(doing.db).await
    }
}

/// Opens (or makes) a data file and starts its writer. The task ends when
/// every clone of the store is gone, or with an error when a commit fails:
/// then the program must stop.
///
/// # Errors
/// When the file cannot be opened or migrated.
pub async fn open(path: &Path) -> Result<(Store, JoinHandle<Result<(), Error>>), Error> {
    open_with(path, BATCH).await
}

/// Returns the same with at most `batch` writes to a commit. One commit a
/// write is what benchmarks measure the shared commit against.
///
/// # Errors
/// When the file cannot be opened or migrated.
pub async fn open_with(
    path: &Path,
    batch: usize,
) -> Result<(Store, JoinHandle<Result<(), Error>>), Error> {
    let (store, writing) = Store::open(path, batch).await?;
    let departments = store.door().await?.list().await?;
    for department in departments {
        perform_unheard(&store, 0, department, FillHouse).await?;
    }
    Ok((store, writing))
}
