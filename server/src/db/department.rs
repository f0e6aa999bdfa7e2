//! The department: what it has decided for itself.

use jiff::civil::Date;

use super::{Connection, Error, Writing};

/// A row of `department`.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Department {
    /// Whether the register may hold initials of pupils.
    pub keeps_initials: bool,
    /// The day on which they are blanked, `yyyy-mm-dd`, in the school's zone.
    pub initials_until: Option<String>,
}

impl Department {
    /// Says whether initials may be kept on a day. From the day on which they
    /// are blanked they may not, nor where nobody named that day.
    #[must_use]
    pub fn keeps_initials_on(&self, day: Date) -> bool {
        let until = self.initials_until.as_deref();
        self.keeps_initials && until.is_some_and(|until| *day.to_string() < *until)
    }
}

/// Returns the department.
pub async fn get(db: &mut Connection) -> Result<Department, Error> {
    let sql = sql!("SELECT keeps_initials, initials_until FROM department WHERE id = $1");
    query_as!(db, sql).fetch_one(db).await
}

/// Keeps initials until a day; `None`: not at all.
pub async fn keep_initials(db: &mut Writing, until: Option<Date>) -> Result<(), Error> {
    let sql = sql!("UPDATE department SET keeps_initials = $2, initials_until = $3 WHERE id = $1");
    query!(db, sql; until.is_some(), until.map(|day| day.to_string()))
        .run(db)
        .await
}
