//! The door: the only questions that are asked before anybody's department is
//! known. Each answers with a department; every other query needs one.

use analysis::text::folded;
use sqlx::{FromRow, Sqlite};

use super::staff::{Role, StaffName};
use super::{Connection, Error};
use crate::clock::{HOUR, MINUTE};
use crate::ids::{DepartmentId, StaffId};

/// A session ends when nothing was asked for so long, in ms.
pub const IDLE: i64 = 3 * HOUR;
/// A session ends so long after signing in, whatever happens, in ms.
pub const LONGEST: i64 = 12 * HOUR;
/// That a session is in use is written down at most this often, in ms: reading
/// pages then costs few writes.
pub const SEEN_EVERY: i64 = 5 * MINUTE;

/// A connection of nobody's department yet.
#[derive(Debug)]
pub struct Door(pub(super) sqlx::pool::PoolConnection<Sqlite>);

impl Door {
    /// Turns it into a connection that reads for a department.
    #[must_use]
    pub fn enter(self, department: DepartmentId) -> Connection {
        Connection::reader(self.0, department)
    }

    /// Finds a session that is not over, by the hash of its cookie's token.
    pub async fn find_session(
        &mut self,
        token_hash: &str,
        now: i64,
    ) -> Result<Option<Session>, Error> {
        let sql =
            "SELECT sign_in.staff_id, staff.department_id, staff.name, staff.role, sign_in.seen_at
                   FROM sign_in JOIN staff ON staff.id = sign_in.staff_id
                   WHERE token_hash = $1 AND sign_in.seen_at > $2 AND sign_in.made_at > $3";
        Ok(sqlx::query_as(sql)
            .bind(token_hash)
            .bind(now - IDLE)
            .bind(now - LONGEST)
            .fetch_optional(&mut *self.0)
            .await?)
    }

    /// Finds whose class set a join code is, in capitals.
    pub async fn find_by_code(&mut self, code: &str) -> Result<Option<DepartmentId>, Error> {
        let sql = "SELECT department_id FROM class_set JOIN class ON class.id = class_id
                   WHERE join_code = $1";
        self.find(sql, code).await
    }

    /// Finds the department of somebody who signs in.
    pub async fn find_by_name(&mut self, name: &str) -> Result<Option<DepartmentId>, Error> {
        let sql = "SELECT department_id FROM staff WHERE name_key = $1";
        self.find(sql, &folded(name)).await
    }

    /// Finds the department that a link to an account leads to.
    pub async fn find_by_link(&mut self, token_hash: &str) -> Result<Option<DepartmentId>, Error> {
        let sql = "SELECT department_id FROM invitation WHERE token_hash = $1";
        self.find(sql, token_hash).await
    }

    /// Lists the departments of the file, oldest first.
    pub async fn list(&mut self) -> Result<Vec<DepartmentId>, Error> {
        let sql = "SELECT id FROM department ORDER BY id";
        Ok(sqlx::query_scalar(sql).fetch_all(&mut *self.0).await?)
    }

    async fn find(&mut self, sql: &'static str, key: &str) -> Result<Option<DepartmentId>, Error> {
        let found = sqlx::query_scalar(sql).bind(key);
        Ok(found.fetch_optional(&mut *self.0).await?)
    }
}

/// A session, and whose it is.
#[derive(Clone, Debug, FromRow)]
pub struct Session {
    /// Who is signed in.
    pub staff_id: StaffId,
    pub department_id: DepartmentId,
    pub name: StaffName,
    /// What they may do.
    pub role: Role,
    /// When the session was last used, Unix ms, to some minutes.
    pub seen_at: i64,
}
