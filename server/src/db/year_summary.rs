//! A year's figures, kept until something that they rest on changes.

use analysis::year::Comparison;

use super::{Connection, Error, Writing};

/// A comparison to keep.
#[derive(Clone, Debug)]
pub struct NewSummary {
    /// The calendar year in which the school year starts.
    pub school_year: i64,
    /// Digest of what it was made from.
    pub state: String,
    /// The figures.
    pub comparison: Comparison,
}

/// The comparison that is kept of a year, if it was made from this state and
/// can be read.
pub async fn find(
    db: &mut Connection,
    school_year: i64,
    state: &str,
) -> Result<Option<Comparison>, Error> {
    let sql = sql!(
        "SELECT body FROM year_summary WHERE department_id = $1 AND school_year = $2 AND state = $3"
    );
    let body: Option<String> = query_scalar!(db, sql; school_year, state)
        .fetch_optional(db)
        .await?;
    Ok(body.and_then(|body| serde_json::from_str(&body).ok()))
}

/// Keeps a comparison in the place of the one before.
pub async fn keep(db: &mut Writing, new: &NewSummary, made_at: i64) -> Result<(), Error> {
    let sql = sql!("INSERT INTO year_summary (department_id, school_year, state, body, made_at) VALUES ($1, $2, $3, $4, $5)
               ON CONFLICT (department_id, school_year) DO UPDATE
               SET state = excluded.state, body = excluded.body, made_at = excluded.made_at");
    query!(db, sql; new.school_year, &new.state, serde_json::to_string(&new.comparison)?, made_at)
        .run(db)
        .await
}
