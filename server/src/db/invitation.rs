//! One-time links by which an account is made.

use super::staff::Role;
use super::{Connection, Error, Writing};
use crate::ids::StaffId;

/// Adds a link to an account of this role, by the SHA-256 of its token. Nobody
/// asked for the one that is printed at the first start.
pub async fn insert(
    db: &mut Writing,
    token_hash: &str,
    role: Role,
    invited_by: Option<StaffId>,
    made_at: i64,
    expires_at: i64,
) -> Result<(), Error> {
    let sql = sql!(
        "INSERT INTO invitation (token_hash, role, invited_by, made_at, expires_at, department_id)
               VALUES ($2, $3, $4, $5, $6, $1)"
    );
    query!(db, sql; token_hash, role, invited_by, made_at, expires_at)
        .run(db)
        .await
}

/// Returns the role that a link still good now would give.
pub async fn find_role(
    db: &mut Connection,
    token_hash: &str,
    now: i64,
) -> Result<Option<Role>, Error> {
    let sql = sql!(
        "SELECT role FROM invitation WHERE department_id = $1 AND token_hash = $2 AND expires_at > $3"
    );
    query_scalar!(db, sql; token_hash, now)
        .fetch_optional(db)
        .await
}

/// Takes a link out of use.
pub async fn delete(db: &mut Writing, token_hash: &str) -> Result<(), Error> {
    let sql = sql!("DELETE FROM invitation WHERE department_id = $1 AND token_hash = $2");
    query!(db, sql; token_hash).run(db).await
}

/// Takes every link that nobody asked for out of use: those printed at
/// earlier starts.
pub async fn delete_printed(db: &mut Writing) -> Result<(), Error> {
    let sql = sql!("DELETE FROM invitation WHERE invited_by IS NULL AND department_id = $1");
    query!(db, sql).run(db).await
}
