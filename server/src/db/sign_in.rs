//! Sessions of staff, under the hash of the cookie's token.

use super::door::{IDLE, LONGEST};
use super::{Error, Writing};
use crate::ids::StaffId;

/// Starts a session, and clears away those that have lapsed.
pub async fn insert(
    db: &mut Writing,
    token_hash: &str,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!(
        "DELETE FROM sign_in WHERE (seen_at <= $2 OR made_at <= $3)
                     AND staff_id IN (SELECT id FROM staff WHERE department_id = $1)"
    );
    query!(db, sql; now - IDLE, now - LONGEST)
        .execute(&mut *db)
        .await?;
    let sql = sql!(
        "INSERT INTO sign_in (token_hash, staff_id, made_at, seen_at) VALUES ($2, (SELECT id FROM staff WHERE id = $3 AND department_id = $1), $4, $4)"
    );
    query!(db, sql; token_hash, staff, now).run(db).await
}

/// Writes down that a session is in use.
pub async fn update_seen(db: &mut Writing, token_hash: &str, now: i64) -> Result<(), Error> {
    let sql = sql!(
        "UPDATE sign_in SET seen_at = $3 WHERE token_hash = $2
                     AND staff_id IN (SELECT id FROM staff WHERE department_id = $1)"
    );
    query!(db, sql; token_hash, now).run(db).await
}

/// Ends a session.
pub async fn delete(db: &mut Writing, token_hash: &str) -> Result<(), Error> {
    let sql = sql!(
        "DELETE FROM sign_in WHERE token_hash = $2
                     AND staff_id IN (SELECT id FROM staff WHERE department_id = $1)"
    );
    query!(db, sql; token_hash).run(db).await
}
