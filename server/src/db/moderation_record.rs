//! The record of a closed round, which never changes, and what was written to
//! it later.

use super::{Connection, Error, Writing};
use crate::ids::{RoundId, StaffId};

/// The record as it was stored.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct StoredRecord {
    /// JSON.
    pub body: String,
    /// Name of who closed the round.
    pub by: String,
    /// Unix ms.
    pub closed_at: i64,
}

/// What was written to a record later.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct RecordEntry {
    /// As typed.
    pub body: String,
    /// Name of who wrote it.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

/// Returns the record of a round. Returns `None` while it is open.
pub async fn find(db: &mut Connection, round: RoundId) -> Result<Option<StoredRecord>, Error> {
    let sql = sql!("SELECT body, staff.name AS \"by\", closed_at
               FROM moderation_record JOIN staff ON staff.id = staff_id WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1)");
    query_as!(db, sql; round).fetch_optional(db).await
}

/// Stores the record of a round.
///
/// # Errors
/// When the query fails, or there is one already.
pub async fn insert(
    db: &mut Writing,
    round: RoundId,
    body: &str,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!(
        "INSERT INTO moderation_record (round_id, body, staff_id, closed_at) VALUES ((SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1), $3, $4, $5)"
    );
    query!(db, sql; round, body, staff, now).run(db).await
}

/// Lists what was written to a record later, oldest first.
pub async fn list_entries(db: &mut Connection, round: RoundId) -> Result<Vec<RecordEntry>, Error> {
    let sql = sql!("SELECT body, staff.name AS \"by\", at
               FROM record_entry JOIN staff ON staff.id = staff_id WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) ORDER BY record_entry.id");
    query_as!(db, sql; round).fetch_all(db).await
}

/// Writes to a record: 1 to 2000 characters.
///
/// # Errors
/// When the query fails, or the round has no record.
pub async fn insert_entry(
    db: &mut Writing,
    round: RoundId,
    body: &str,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!(
        "INSERT INTO record_entry (round_id, body, staff_id, at) VALUES ((SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1), $3, $4, $5)"
    );
    query!(db, sql; round, body, staff, now).run(db).await
}
