//! Browsers that chose a bench.

use super::{Connection, Error};
use crate::clock::HOUR;
use crate::ids::{BenchId, ClassSetId, VisitId};

/// A visit lapses after a school day, in ms: the next lesson's browser asks
/// for the come-back number.
pub const LONGEST: i64 = 12 * HOUR;

/// The live visit of this browser to this bench.
///
/// # Errors
/// When the query fails.
pub async fn find(
    db: &mut Connection,
    token_hash: &str,
    bench: BenchId,
    now: i64,
) -> Result<Option<VisitId>, Error> {
    let sql = "SELECT id FROM visit WHERE token_hash = $1 AND bench_id = $2 AND made_at > $3";
    Ok(sqlx::query_scalar(sql)
        .bind(token_hash)
        .bind(bench)
        .bind(now - LONGEST)
        .fetch_optional(db)
        .await?)
}

/// When browsers came to a bench, of those that have not left it.
#[derive(Clone, Copy, Debug, sqlx::FromRow)]
pub struct Came {
    /// The bench.
    pub bench_id: BenchId,
    /// When the first of them came, Unix ms.
    pub first: i64,
    /// When the last of them came, or came back, Unix ms.
    pub last: i64,
}

/// When browsers came to the benches of a class set; nothing of a bench that
/// all have left, or none came to.
///
/// # Errors
/// When the query fails.
pub async fn list_came(db: &mut Connection, class_set: ClassSetId) -> Result<Vec<Came>, Error> {
    let sql = "SELECT bench_id, min(visit.made_at) AS first, max(visit.made_at) AS last
               FROM visit JOIN bench ON bench.id = visit.bench_id
               WHERE bench.class_set_id = $1 AND visit.made_at > 0 GROUP BY bench_id";
    Ok(sqlx::query_as(sql).bind(class_set).fetch_all(db).await?)
}

/// Starts a visit, or starts it afresh.
///
/// # Errors
/// When the query fails.
pub async fn insert(
    db: &mut Connection,
    token_hash: &str,
    bench: BenchId,
    now: i64,
) -> Result<VisitId, Error> {
    let sql = "INSERT INTO visit (token_hash, bench_id, made_at) VALUES ($1, $2, $3)
               ON CONFLICT (token_hash, bench_id) DO UPDATE SET made_at = excluded.made_at RETURNING id";
    Ok(sqlx::query_scalar(sql)
        .bind(token_hash)
        .bind(bench)
        .bind(now)
        .fetch_one(db)
        .await?)
}

/// Ends the visit of one browser to one bench.
///
/// # Errors
/// When the query fails.
pub async fn update_left(db: &mut Connection, id: VisitId) -> Result<(), Error> {
    sqlx::query("UPDATE visit SET made_at = 0 WHERE id = $1")
        .bind(id)
        .execute(db)
        .await?;
    Ok(())
}

/// Ends every visit to one bench.
///
/// # Errors
/// When the query fails.
pub async fn update_all_left(db: &mut Connection, bench: BenchId) -> Result<(), Error> {
    sqlx::query("UPDATE visit SET made_at = 0 WHERE bench_id = $1")
        .bind(bench)
        .execute(db)
        .await?;
    Ok(())
}
