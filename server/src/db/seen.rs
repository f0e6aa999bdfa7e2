//! A teacher's ticks in a lesson: this bench was visited. Only the newest of
//! each bench is kept.

use super::{Connection, Error, Writing};
use crate::ids::{BenchId, ClassSetId, StaffId};

/// A tick.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Seen {
    pub bench_id: BenchId,
    /// Version of its sheet at that time; 0 where nothing was stored.
    pub version: i64,
    pub staff_id: StaffId,
    /// Name of who was there.
    pub by: String,
    /// When, Unix ms.
    pub at: i64,
}

/// Returns the ticks of a class set.
pub async fn list(db: &mut Connection, class_set: ClassSetId) -> Result<Vec<Seen>, Error> {
    let sql = sql!("SELECT bench_id, version, staff_id, staff.name AS \"by\", seen.at
               FROM seen JOIN bench ON bench.id = seen.bench_id JOIN staff ON staff.id = seen.staff_id
               WHERE bench.class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)");
    query_as!(db, sql; class_set).fetch_all(db).await
}

/// Ticks a bench, in the place of an earlier tick. The version is the one that
/// was on the screen: what was stored meanwhile has not been seen. It is never
/// taken for a later one than there is.
pub async fn tick(
    db: &mut Writing,
    bench: BenchId,
    version: i64,
    staff: StaffId,
    at: i64,
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO seen (bench_id, version, staff_id, at)
               SELECT $2, CASE WHEN $3 < version THEN $3 ELSE version END, $4, $5 FROM sheet WHERE bench_id = (SELECT id FROM own_bench WHERE id = $2 AND department_id = $1)
               ON CONFLICT (bench_id) DO UPDATE
               SET version = excluded.version, staff_id = excluded.staff_id, at = excluded.at");
    query!(db, sql; bench, version, staff, at).run(db).await
}

/// Takes a bench's tick away.
pub async fn take_away(db: &mut Writing, bench: BenchId) -> Result<(), Error> {
    let sql = sql!(
        "DELETE FROM seen WHERE bench_id = (SELECT id FROM own_bench WHERE id = $2 AND department_id = $1)"
    );
    query!(db, sql; bench).run(db).await
}
