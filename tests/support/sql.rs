//! A test's own way to the data file, past the program.

use std::path::Path;
use std::time::Duration;

use sqlx::ConnectOptions as _;
use sqlx::sqlite::{SqliteConnectOptions, SqliteConnection};

/// Opens a connection of the test's own, which reads and writes what it likes
/// under the rules of the tables.
pub(crate) async fn sql(path: &Path) -> SqliteConnection {
    let options = SqliteConnectOptions::new()
        .filename(path)
        .foreign_keys(true)
        .busy_timeout(Duration::from_secs(10))
        .pragma("recursive_triggers", "ON");
    options.connect().await.unwrap()
}
