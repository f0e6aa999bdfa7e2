//! Groups of a class set, each with its one sheet.

use super::{Connection, Error, Writing};
use crate::ids::{BenchId, ClassSetId, SheetId};

/// A bench and how far its sheet has come.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Bench {
    pub id: BenchId,
    /// A, B, C and so on.
    pub label: String,
    /// Argon2id of its come-back number; `None` until the first visit.
    pub come_back_hash: Option<String>,
    pub sheet_id: SheetId,
    /// Version of the sheet; 0 where nothing is stored.
    pub version: i64,
    /// The kit's own label, where the sheet names one of the list.
    pub kit: Option<String>,
    /// When it was last handed in, Unix ms; `None` if never.
    pub handed_in_at: Option<i64>,
    /// When its newest revision was only saved, Unix ms; `None` where that
    /// was handed in, or nothing is stored.
    pub saved_at: Option<i64>,
}

/// A query for benches: the columns of [`Bench`] with `class_set_id`, where
/// `$which`.
macro_rules! select {
    ($which:literal) => {
        concat!(
            "SELECT bench.id, class_set_id, label, come_back_hash, sheet.id AS sheet_id, sheet.version,
             (SELECT kit.label FROM kit WHERE kit.id = sheet.kit_id) AS kit,
             (SELECT max(written_at) FROM revision WHERE sheet_id = sheet.id AND kind = 'handed_in') AS handed_in_at,
             (SELECT written_at FROM revision WHERE sheet_id = sheet.id AND version = sheet.version AND kind = 'saved') AS saved_at
             FROM bench JOIN sheet ON sheet.bench_id = bench.id WHERE ",
            $which,
            " ORDER BY class_set_id, label"
        )
    };
}

/// Returns the benches of a class set, by label.
pub async fn list(db: &mut Connection, class_set: ClassSetId) -> Result<Vec<Bench>, Error> {
    let sql = sql!(select!(
        "class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)"
    ));
    query_as!(db, sql; class_set).fetch_all(db).await
}

#[derive(sqlx::FromRow)]
struct OfClassSet {
    class_set_id: ClassSetId,
    #[sqlx(flatten)]
    bench: Bench,
}

/// Lists the benches of some class sets, each with its class set.
pub async fn list_in(
    db: &mut Connection,
    class_sets: &[ClassSetId],
) -> Result<Vec<(ClassSetId, Bench)>, Error> {
    let sql = sql!(select!(
        "class_set_id IN (SELECT own_set.id FROM json_each($2) CROSS JOIN own_set WHERE own_set.id = value AND department_id = $1)"
    ));
    let rows: Vec<OfClassSet> = query_as!(db, sql; serde_json::to_string(class_sets)?)
        .fetch_all(db)
        .await?;
    let benches = rows.into_iter();
    Ok(benches.map(|row| (row.class_set_id, row.bench)).collect())
}

/// Returns one bench by its label.
pub async fn find(
    db: &mut Connection,
    class_set: ClassSetId,
    label: &str,
) -> Result<Option<Bench>, Error> {
    let sql = sql!(select!(
        "class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) AND label = $3"
    ));
    query_as!(db, sql; class_set, label)
        .fetch_optional(db)
        .await
}

/// Adds a bench with its empty sheet.
pub async fn insert(
    db: &mut Writing,
    class_set: ClassSetId,
    label: &str,
) -> Result<BenchId, Error> {
    let sql = sql!(
        "INSERT INTO bench (class_set_id, label) VALUES ((SELECT id FROM own_set WHERE id = $2 AND department_id = $1), $3) RETURNING id"
    );
    let id: BenchId = query_scalar!(db, sql; class_set, label)
        .fetch_one(&mut *db)
        .await?;
    let sql = sql!(
        "INSERT INTO sheet (bench_id) VALUES ((SELECT id FROM own_bench WHERE id = $2 AND department_id = $1))"
    );
    query!(db, sql; id).execute(db).await?;
    Ok(id)
}

/// Gives a bench a come-back number, in place of the one that it has.
pub async fn set_number(db: &mut Writing, id: BenchId, hash: &str) -> Result<(), Error> {
    let sql = sql!(
        "UPDATE bench SET come_back_hash = $3 WHERE id = (SELECT id FROM own_bench WHERE id = $2 AND department_id = $1)"
    );
    query!(db, sql; id, hash).run(db).await
}
