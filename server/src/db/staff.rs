//! People who set and mark work.

use analysis::text::folded;

use super::{Connection, Error, Writing};
use crate::ids::StaffId;

codes! {
    /// What somebody may do.
    pub enum Role {
        /// Head of department: adds colleagues as well.
        Head = "head",
        /// Sets and marks.
        Teacher = "teacher",
    }
}

/// A person's name as shown on pages.
#[derive(Clone, Debug, PartialEq, Eq, sqlx::Type)]
#[sqlx(transparent)]
pub struct StaffName {
    /// As they typed it.
    pub name: String,
}

impl std::fmt::Display for StaffName {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.name.fmt(f)
    }
}

/// A row of `staff`.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Staff {
    pub id: StaffId,
    /// The name as shown.
    pub name: StaffName,
    /// Argon2id, PHC string form.
    pub password_hash: String,
    /// What they may do.
    pub role: Role,
}

/// Counts the people.
pub async fn count(db: &mut Connection) -> Result<i64, Error> {
    let sql = sql!("SELECT count(*) FROM staff WHERE department_id = $1");
    query_scalar!(db, sql).fetch_one(db).await
}

/// Returns the person who signs in with this name.
pub async fn find_by_name(db: &mut Connection, name: &str) -> Result<Option<Staff>, Error> {
    let sql = sql!(
        "SELECT id, name, password_hash, role FROM staff WHERE department_id = $1 AND name_key = $2"
    );
    query_as!(db, sql; folded(name)).fetch_optional(db).await
}

/// Lists everybody, by name.
pub async fn list(db: &mut Connection) -> Result<Vec<Staff>, Error> {
    let sql = sql!(
        "SELECT id, name, password_hash, role FROM staff WHERE department_id = $1 ORDER BY name_key"
    );
    query_as!(db, sql).fetch_all(db).await
}

/// Adds somebody, with the Argon2id of their password. Returns `None` when the
/// name is taken.
pub async fn insert(
    db: &mut Writing,
    name: &str,
    password_hash: &str,
    role: Role,
    now: i64,
) -> Result<Option<StaffId>, Error> {
    let sql = sql!(
        "INSERT INTO staff (department_id, name, name_key, password_hash, role, made_at)
               VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT (name_key) DO NOTHING RETURNING id"
    );
    query_scalar!(db, sql; name, folded(name), password_hash, role, now)
        .fetch_optional(db)
        .await
}
