//! The data file: opened once, read through a small pool, written by one task.
//!
//! All SQL is in this folder, one file a table, with `$1` placeholders.

#![expect(
    clippy::missing_errors_doc,
    reason = "every query fails alike, when the data file does; only what fails otherwise is said"
)]

#[macro_use]
mod code;
#[macro_use]
mod query;

pub mod annotation;
pub mod bench;
pub mod class;
pub mod class_set;
pub mod comment;
pub mod decision;
pub mod department;
pub mod derived;
pub mod door;
pub mod draft;
pub mod event;
pub mod inference;
pub mod invitation;
pub mod judgement;
pub mod kit;
mod lock;
pub mod mark;
mod migrations;
pub mod moderation_record;
pub mod register;
pub mod release;
pub mod revision;
pub mod round;
pub mod round_sheet;
pub mod ruling;
pub mod sample_size;
pub mod scheme;
pub mod second_mark;
pub mod seen;
pub mod settlement;
pub mod sheet;
pub mod sign_in;
pub mod staff;
#[cfg(test)]
mod tests;
mod upgrade;
pub mod visit;
pub(in crate::data) mod writer;
pub mod year;

use std::path::Path;
use std::time::Duration;

use sqlx::ConnectOptions as _;
use sqlx::sqlite::{
    SqliteConnectOptions, SqliteJournalMode, SqlitePool, SqlitePoolOptions, SqliteSynchronous,
};
use tokio::task::JoinHandle;

pub use door::Door;
pub use lock::Lock;
pub use migrations::MIGRATOR;
pub use query::{Connection, Writing};
use writer::Writer;

use crate::ids::DepartmentId;

/// Checks that an update met the row that an address or a form names.
fn found(rows: u64) -> Result<(), Error> {
    if rows == 0 {
        return Err(Error::NoSuch);
    }
    Ok(())
}

/// What can go wrong with the data file.
#[derive(Debug, thiserror::Error)]
pub enum Error {
    /// A statement failed, or a row that had to be there was not.
    #[error(transparent)]
    Sql(#[from] sqlx::Error),
    /// A migration failed, or the file is from a newer program.
    #[error(transparent)]
    Migrate(#[from] sqlx::migrate::MigrateError),
    /// No copy of the file as it is can be kept, so it was not changed.
    #[error(
        "no copy of the data file can be kept beside it, so it was not brought up to date: {0}"
    )]
    Copy(#[source] std::io::Error),
    /// Another process has the file open.
    #[error("another program has this data file open")]
    InUse,
    /// The lock file cannot be made or opened.
    #[error("the lock file beside the data file: {0}")]
    Lock(std::io::Error),
    /// The queue of writes is full.
    #[error("too many writes are waiting")]
    Busy,
    /// The writer has stopped after a commit that failed.
    #[error("the data file does not take writes any more")]
    Stopped,
    /// What an address or a form names is not there.
    #[error("there is no such row")]
    NoSuch,
    /// Only a head of department does this.
    #[error("only a head of department does this")]
    HeadOnly,
    /// A row was missing that an act needs and that is always there.
    #[error("a row that an act needs is missing")]
    Missing,
    /// A job of the writer panicked; nothing of it was kept.
    #[error("a write panicked: {0}")]
    Panicked(String),
    /// Stored JSON is not what this program writes.
    #[error("a stored body cannot be read: {0}")]
    Body(#[from] serde_json::Error),
}

/// The open data file.
#[derive(Clone, Debug)]
pub struct Store {
    readers: SqlitePool,
    writer: Writer,
}

impl Store {
    /// Opens (or makes) a data file, brings its tables up to date and starts
    /// the writer's task, with at most `batch` writes to a commit.
    pub(in crate::data) async fn open(
        path: &Path,
        batch: usize,
    ) -> Result<(Self, JoinHandle<Result<(), Error>>), Error> {
        let options = options(path);
        let mut connection = options.connect().await?;
        upgrade::upgrade(&mut connection, path).await?;
        // Counts what is in the tables, by which SQLite plans its queries.
        sqlx::query("PRAGMA optimize = 0x10002")
            .execute(&mut connection)
            .await?;
        let connection = Writing::new(connection);
        let readers = SqlitePoolOptions::new()
            .max_connections(4)
            .max_lifetime(None)
            .idle_timeout(None)
            .acquire_timeout(Duration::from_secs(5))
            // A file does not hang up, and to ask would cost each page a turn of a thread.
            .test_before_acquire(false)
            .connect_with(
                options
                    .pragma("query_only", "ON")
                    // In KiB, for each reader: a year's marks and judgements stay in it.
                    .pragma("cache_size", "-16384"),
            )
            .await?;
        let (writer, task) = Writer::start(connection, batch);
        Ok((Self { readers, writer }, task))
    }

    /// Returns a connection that finds out whose department it is about.
    ///
    /// # Errors
    /// When none comes free within five seconds.
    pub async fn door(&self) -> Result<Door, Error> {
        Ok(Door(self.readers.acquire().await?))
    }

    /// Returns a connection to read with for a department. Never hold two.
    ///
    /// # Errors
    /// When none comes free within five seconds.
    pub async fn reader(&self, department: DepartmentId) -> Result<Connection, Error> {
        let raw = self.readers.acquire().await?;
        Ok(Connection::reader(raw, department))
    }

    /// Closes the readers' connections and this handle.
    pub async fn close(self) {
        self.readers.close().await;
    }

    /// Returns the way to write, for acts alone.
    pub(in crate::data) fn writer(&self) -> &Writer {
        &self.writer
    }
}

/// Full synchronous, because a reply that says *kept* must outlive a power cut.
fn options(path: &Path) -> SqliteConnectOptions {
    SqliteConnectOptions::new()
        .filename(path)
        .create_if_missing(true)
        .journal_mode(SqliteJournalMode::Wal)
        .synchronous(SqliteSynchronous::Full)
        .foreign_keys(true)
        .busy_timeout(Duration::from_secs(10))
        // Without it INSERT OR REPLACE walks past the append-only triggers.
        .pragma("recursive_triggers", "ON")
        // What is blanked or replaced leaves nothing behind in the file.
        .pragma("secure_delete", "ON")
        .pragma("trusted_schema", "OFF")
        .pragma("journal_size_limit", "67108864")
}
