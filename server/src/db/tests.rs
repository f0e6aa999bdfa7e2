use super::Store;
use super::query::query_scalar;
use crate::ids::DepartmentId;

/// A data file and its writer, which no act has a hand in.
async fn open(folder: &tempfile::TempDir) -> Store {
    let path = folder.path().join("data.db");
    Store::open(&path, 1).await.unwrap().0
}

#[tokio::test]
async fn writer_is_as_durable_as_promised() {
    let folder = tempfile::tempdir().unwrap();
    let store = open(&folder).await;
    let set = store.writer().run(
        DepartmentId(1),
        |_| {},
        |db| {
            Box::pin(async move {
                let sql = sql!(
                "SELECT concat_ws(' ', journal_mode, synchronous, foreign_keys, recursive_triggers,
                                  secure_delete, trusted_schema, query_only)
                 FROM pragma_journal_mode, pragma_synchronous, pragma_foreign_keys,
                      pragma_recursive_triggers, pragma_secure_delete, pragma_trusted_schema,
                      pragma_query_only
                 WHERE $1 > 0"
            );
                query_scalar::<String>(db, sql).fetch_one(db).await
            })
        },
    );
    assert_eq!(set.await.unwrap(), "wal 2 1 1 1 0 0");
}

#[tokio::test]
async fn readers_cannot_write() {
    let folder = tempfile::tempdir().unwrap();
    let mut db = open(&folder).await.reader(DepartmentId(1)).await.unwrap();
    let sql = sql!("DELETE FROM kit WHERE department_id = $1 RETURNING id");
    let done = query_scalar::<i64>(&db, sql).fetch_optional(&mut db).await;
    let refused = done.unwrap_err().to_string();
    assert!(refused.contains("readonly"), "query_only holds: {refused}");
}
