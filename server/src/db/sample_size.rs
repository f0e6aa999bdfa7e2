//! How many sheets of how large a cohort are second-marked: the department's
//! own table.

use super::{Connection, Error, Writing};

/// A line of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct SampleSize {
    /// For cohorts of at most so many sheets; `None`: for all larger ones.
    pub up_to: Option<i64>,
    /// So many are second-marked; `None`: all of them.
    pub size: Option<i64>,
}

/// Returns the table, smallest cohorts first.
pub async fn list(db: &mut Connection) -> Result<Vec<SampleSize>, Error> {
    let sql = sql!(
        "SELECT up_to, size FROM sample_size WHERE department_id = $1
               ORDER BY CASE WHEN up_to IS NULL THEN 1 ELSE 0 END, up_to"
    );
    query_as!(db, sql).fetch_all(db).await
}

/// Returns how many sheets of a cohort are second-marked. Returns `None` for
/// all of them.
#[must_use]
pub fn for_cohort(table: &[SampleSize], cohort: usize) -> Option<usize> {
    let cohort = i64::try_from(cohort).unwrap_or(i64::MAX);
    let line = table
        .iter()
        .find(|line| line.up_to.is_none_or(|up_to| cohort <= up_to))?;
    line.size.map(|size| usize::try_from(size).unwrap_or(0))
}

/// Puts another table in its place.
pub async fn replace(db: &mut Writing, table: &[SampleSize]) -> Result<(), Error> {
    let sql = sql!("DELETE FROM sample_size WHERE department_id = $1");
    query!(db, sql).execute(&mut *db).await?;
    for line in table {
        let sql = sql!("INSERT INTO sample_size (department_id, up_to, size) VALUES ($1, $2, $3)");
        query!(db, sql; line.up_to, line.size)
            .execute(&mut *db)
            .await?;
    }
    Ok(())
}
