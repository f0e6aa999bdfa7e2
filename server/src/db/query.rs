//! The one way to ask the data file something: a query belongs to a
//! department before it can be built.
//!
//! `$1` of every statement is the department, and is bound here. What a
//! function binds itself starts at `$2`.

use sqlx::query::{Query as AnyRow, QueryAs, QueryScalar};
use sqlx::sqlite::{SqliteArguments, SqliteConnection, SqliteRow};
use sqlx::{Encode, FromRow, Sqlite, Type};

use super::Error;
use crate::ids::DepartmentId;

/// A connection that reads for one department: what every query takes.
#[derive(Debug)]
pub struct Connection {
    raw: Raw,
    department: DepartmentId,
}

#[derive(Debug)]
enum Raw {
    Reader(sqlx::pool::PoolConnection<Sqlite>),
    Writer(SqliteConnection),
}

impl Connection {
    /// Lends a connection of the readers' pool to a department.
    pub(super) fn reader(
        raw: sqlx::pool::PoolConnection<Sqlite>,
        department: DepartmentId,
    ) -> Self {
        Self {
            raw: Raw::Reader(raw),
            department,
        }
    }

    /// Returns the department that it reads for.
    #[must_use]
    pub fn department(&self) -> DepartmentId {
        self.department
    }

    fn raw(&mut self) -> &mut SqliteConnection {
        match &mut self.raw {
            Raw::Reader(raw) => raw,
            Raw::Writer(raw) => raw,
        }
    }
}

/// The connection that writes. Only acts get hold of it, in the writer's task.
#[derive(Debug)]
pub struct Writing(Connection);

impl Writing {
    /// Makes a connection the writer's. Each job says for which department it
    /// writes.
    pub(super) fn new(raw: SqliteConnection) -> Self {
        Self(Connection {
            raw: Raw::Writer(raw),
            department: DepartmentId(0),
        })
    }

    pub(super) fn turn_to(&mut self, department: DepartmentId) {
        self.0.department = department;
    }

    /// Runs a statement that is about the file and not about rows.
    pub(super) async fn command(&mut self, sql: &'static str) -> Result<(), sqlx::Error> {
        sqlx::query(sql).execute(self.0.raw()).await?;
        Ok(())
    }

    /// Closes the file.
    pub(super) async fn close(self) -> Result<(), sqlx::Error> {
        match self.0.raw {
            Raw::Writer(raw) => sqlx::Connection::close(raw).await,
            Raw::Reader(raw) => raw.close().await,
        }
    }
}

impl std::ops::Deref for Writing {
    type Target = Connection;

    fn deref(&self) -> &Connection {
        &self.0
    }
}

impl std::ops::DerefMut for Writing {
    fn deref_mut(&mut self) -> &mut Connection {
        &mut self.0
    }
}

/// The text of a statement. Made by `sql!`, which does not compile where the
/// text leaves out `$1`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sql(&'static str);

impl Sql {
    /// Checks that a statement names its department.
    pub(super) const fn of(text: &'static str) -> Self {
        assert!(
            names_department(text),
            "every statement is of a department: $1"
        );
        Self(text)
    }
}

/// Looks for `$1` that is not the start of `$10` and the like.
const fn names_department(text: &str) -> bool {
    let bytes = text.as_bytes();
    let mut at = 0;
    while at + 1 < bytes.len() {
        let is_one = bytes[at] == b'$' && bytes[at + 1] == b'1';
        if is_one && (at + 2 == bytes.len() || !bytes[at + 2].is_ascii_digit()) {
            return true;
        }
        at += 1;
    }
    false
}

/// Checks a statement while the program is compiled.
macro_rules! sql {
    ($text:expr) => {
        const { $crate::db::query::Sql::of($text) }
    };
}

/// Begins a statement of the department that `$db` writes for, with the values
/// from `$2` on. They stand in few lines, as the columns do.
macro_rules! query {
    ($db:expr, $sql:expr $(; $($value:expr),+)?) => {
        $crate::db::query::query($db, $sql)$($(.bind($value))+)?
    };
}

/// Begins a query for rows of the department that `$db` reads for, in the same
/// way.
macro_rules! query_as {
    ($db:expr, $sql:expr $(; $($value:expr),+)?) => {
        $crate::db::query::query_as($db, $sql)$($(.bind($value))+)?
    };
}

/// Begins a query for values of the department that `$db` reads for, in the
/// same way.
macro_rules! query_scalar {
    ($db:expr, $sql:expr $(; $($value:expr),+)?) => {
        $crate::db::query::query_scalar($db, $sql)$($(.bind($value))+)?
    };
}

/// A statement that returns no row.
pub(super) struct Statement<'q>(AnyRow<'q, Sqlite, SqliteArguments>);

/// A query whose rows become `O`.
pub(super) struct Rows<'q, O>(QueryAs<'q, Sqlite, O, SqliteArguments>);

/// A query for one value a row.
pub(super) struct Values<'q, O>(QueryScalar<'q, Sqlite, O, SqliteArguments>);

/// Begins a statement of the department that `db` writes for.
pub(super) fn query(db: &Writing, sql: Sql) -> Statement<'static> {
    Statement(sqlx::query(sql.0).bind(db.department))
}

/// Begins a query for rows of the department that `db` reads for.
pub(super) fn query_as<O>(db: &Connection, sql: Sql) -> Rows<'static, O>
where
    O: for<'r> FromRow<'r, SqliteRow>,
{
    Rows(sqlx::query_as(sql.0).bind(db.department))
}

/// Begins a query for values of the department that `db` reads for.
pub(super) fn query_scalar<O>(db: &Connection, sql: Sql) -> Values<'static, O>
where
    (O,): for<'r> FromRow<'r, SqliteRow>,
{
    Values(sqlx::query_scalar(sql.0).bind(db.department))
}

impl<'q> Statement<'q> {
    /// Binds the next value.
    pub(super) fn bind<T: Encode<'q, Sqlite> + Type<Sqlite> + 'q>(self, value: T) -> Self {
        Self(self.0.bind(value))
    }

    pub(super) async fn run(self, db: &mut Writing) -> Result<(), Error> {
        self.execute(db).await?;
        Ok(())
    }

    /// Runs it; how many rows it wrote.
    pub(super) async fn execute(self, db: &mut Writing) -> Result<u64, Error> {
        Ok(self.0.execute(db.raw()).await?.rows_affected())
    }
}

/// The three ways to fetch, for rows and for values.
macro_rules! fetching {
    ($name:ident where $($bound:tt)+) => {
        impl<'q, O> $name<'q, O>
        where
            O: Send + Unpin + 'q,
            $($bound)+
        {
            /// Binds the next value.
            pub(super) fn bind<T: Encode<'q, Sqlite> + Type<Sqlite> + 'q>(self, value: T) -> Self {
                Self(self.0.bind(value))
            }

            /// Fetches the one row that there must be.
            pub(super) async fn fetch_one(self, db: &mut Connection) -> Result<O, Error> {
                Ok(self.0.fetch_one(db.raw()).await?)
            }

            /// Fetches a row, if there is one.
            pub(super) async fn fetch_optional(
                self,
                db: &mut Connection,
            ) -> Result<Option<O>, Error> {
                Ok(self.0.fetch_optional(db.raw()).await?)
            }

            /// Fetches all rows.
            pub(super) async fn fetch_all(self, db: &mut Connection) -> Result<Vec<O>, Error> {
                Ok(self.0.fetch_all(db.raw()).await?)
            }
        }
    };
}

fetching!(Rows where O: for<'r> FromRow<'r, SqliteRow>);
fetching!(Values where (O,): for<'r> FromRow<'r, SqliteRow> + Send + Unpin);
