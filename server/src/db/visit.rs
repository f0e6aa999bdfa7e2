//! Browsers that chose a bench.

use super::class_set::State;
use super::{Connection, Error, Writing};
use crate::clock::HOUR;
use crate::ids::{BenchId, ClassSetId, SheetId, VisitId};

/// A visit lapses after a school day, in ms: the next lesson's browser asks
/// for the come-back number.
pub const LONGEST: i64 = 12 * HOUR;

/// Returns the live visit of this browser to this bench.
pub async fn find(
    db: &mut Connection,
    token_hash: &str,
    bench: BenchId,
    now: i64,
) -> Result<Option<VisitId>, Error> {
    let sql = sql!(
        "SELECT id FROM visit WHERE token_hash = $2 AND bench_id = (SELECT id FROM own_bench WHERE id = $3 AND department_id = $1) AND made_at > $4"
    );
    query_scalar!(db, sql; token_hash, bench, now - LONGEST)
        .fetch_optional(db)
        .await
}

#[derive(Clone, Copy, Debug, sqlx::FromRow)]
pub struct Place {
    pub class_set_id: ClassSetId,
    /// Whether its groups may write.
    pub state: State,
    /// The sheet of the bench.
    pub sheet_id: SheetId,
}

/// Finds where a visit is. Returns `None` when it is over.
pub async fn find_place(
    db: &mut Connection,
    id: VisitId,
    now: i64,
) -> Result<Option<Place>, Error> {
    let sql = sql!(
        "SELECT class_set.id AS class_set_id, class_set.state, sheet.id AS sheet_id
               FROM visit JOIN bench ON bench.id = visit.bench_id
               JOIN sheet ON sheet.bench_id = bench.id
               JOIN class_set ON class_set.id = bench.class_set_id
               JOIN class ON class.id = class_set.class_id
               WHERE visit.id = $2 AND visit.made_at > $3 AND class.department_id = $1"
    );
    query_as!(db, sql; id, now - LONGEST)
        .fetch_optional(db)
        .await
}

/// When browsers came to a bench, of those that have not left it.
#[derive(Clone, Copy, Debug, sqlx::FromRow)]
pub struct Came {
    pub bench_id: BenchId,
    /// When the first of them came, Unix ms.
    pub first: i64,
    /// When the last of them came, or came back, Unix ms.
    pub last: i64,
}

/// Lists when browsers came to the benches of a class set. A bench is missing
/// when no browser came to it, or all have left.
pub async fn list_came(db: &mut Connection, class_set: ClassSetId) -> Result<Vec<Came>, Error> {
    let sql = sql!("SELECT bench_id, min(visit.made_at) AS first, max(visit.made_at) AS last
               FROM visit JOIN bench ON bench.id = visit.bench_id
               WHERE bench.class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) AND visit.made_at > 0 GROUP BY bench_id");
    query_as!(db, sql; class_set).fetch_all(db).await
}

/// Starts a visit, or starts it afresh.
pub async fn insert(
    db: &mut Writing,
    token_hash: &str,
    bench: BenchId,
    now: i64,
) -> Result<VisitId, Error> {
    let sql = sql!("INSERT INTO visit (token_hash, bench_id, made_at) VALUES ($2, (SELECT id FROM own_bench WHERE id = $3 AND department_id = $1), $4)
               ON CONFLICT (token_hash, bench_id) DO UPDATE SET made_at = excluded.made_at RETURNING id");
    query_scalar!(db, sql; token_hash, bench, now)
        .fetch_one(db)
        .await
}

/// Ends the visit of one browser to one bench.
pub async fn leave(db: &mut Writing, id: VisitId) -> Result<(), Error> {
    let sql = sql!("UPDATE visit SET made_at = 0 WHERE id = $2
                     AND EXISTS (SELECT 1 FROM own_bench WHERE own_bench.id = bench_id AND department_id = $1)");
    query!(db, sql; id).run(db).await
}

/// Ends every visit to one bench.
pub async fn leave_all(db: &mut Writing, bench: BenchId) -> Result<(), Error> {
    let sql = sql!(
        "UPDATE visit SET made_at = 0 WHERE bench_id = (SELECT id FROM own_bench WHERE id = $2 AND department_id = $1)"
    );
    query!(db, sql; bench).run(db).await
}
