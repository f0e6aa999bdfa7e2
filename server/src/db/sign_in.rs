//! Sessions of staff, under the hash of the cookie's token.

use super::query::{query, query_as};
use super::staff::{Role, StaffName};
use super::{Connection, Error, Writing};
use crate::clock::{HOUR, MINUTE};
use crate::ids::StaffId;

/// A session ends when nothing was asked for so long, in ms.
pub const IDLE: i64 = 3 * HOUR;
/// A session ends so long after signing in, whatever happens, in ms.
pub const LONGEST: i64 = 12 * HOUR;
/// `seen_at` is written at most this often, so that reading pages costs no writes.
pub const SEEN_EVERY: i64 = 5 * MINUTE;

/// A live session and whose it is.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct SignIn {
    /// Who.
    pub staff_id: StaffId,
    /// The name as shown.
    pub name: StaffName,
    /// What they may do.
    pub role: Role,
    /// When it was last written down that the session is in use, Unix ms.
    pub seen_at: i64,
}

/// The live session with this token.
///
/// # Errors
/// When the query fails.
pub async fn find(
    db: &mut Connection,
    token_hash: &str,
    now: i64,
) -> Result<Option<SignIn>, Error> {
    let sql = sql!("SELECT sign_in.staff_id, staff.name, staff.role, sign_in.seen_at
               FROM sign_in JOIN staff ON staff.id = sign_in.staff_id
               WHERE staff.department_id = $1 AND token_hash = $2 AND sign_in.seen_at > $3 AND sign_in.made_at > $4");
    Ok(query_as(db, sql)
        .bind(token_hash)
        .bind(now - IDLE)
        .bind(now - LONGEST)
        .fetch_optional(db)
        .await?)
}

/// Starts a session, and clears away those that have lapsed.
///
/// # Errors
/// When the query fails.
pub async fn insert(
    db: &mut Writing,
    token_hash: &str,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    query(
        db,
        sql!(
            "DELETE FROM sign_in WHERE (seen_at <= $2 OR made_at <= $3)
                     AND staff_id IN (SELECT id FROM staff WHERE department_id = $1)"
        ),
    )
    .bind(now - IDLE)
    .bind(now - LONGEST)
    .execute(&mut *db)
    .await?;
    query(
        db,
        sql!("INSERT INTO sign_in (token_hash, staff_id, made_at, seen_at) VALUES ($2, (SELECT id FROM staff WHERE id = $3 AND department_id = $1), $4, $4)")
    )
    .bind(token_hash)
    .bind(staff)
    .bind(now)
    .execute(db)
    .await?;
    Ok(())
}

/// Writes down that a session is in use.
///
/// # Errors
/// When the query fails.
pub async fn update_seen(db: &mut Writing, token_hash: &str, now: i64) -> Result<(), Error> {
    query(
        db,
        sql!(
            "UPDATE sign_in SET seen_at = $3 WHERE token_hash = $2
                     AND staff_id IN (SELECT id FROM staff WHERE department_id = $1)"
        ),
    )
    .bind(token_hash)
    .bind(now)
    .execute(db)
    .await?;
    Ok(())
}

/// Ends a session.
///
/// # Errors
/// When the query fails.
pub async fn delete(db: &mut Writing, token_hash: &str) -> Result<(), Error> {
    query(
        db,
        sql!(
            "DELETE FROM sign_in WHERE token_hash = $2
                     AND staff_id IN (SELECT id FROM staff WHERE department_id = $1)"
        ),
    )
    .bind(token_hash)
    .execute(db)
    .await?;
    Ok(())
}
