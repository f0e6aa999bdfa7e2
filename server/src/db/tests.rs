use std::collections::BTreeSet;

use super::Store;
use super::class_set::LookAgain;
use super::query::query_scalar;
use super::round::Step;
use super::settlement::Kind;
use crate::ids::DepartmentId;
use crate::words::look_again;
use crate::words::moderation::{settled, stands};

/// Returns a data file and its writer, which no act has a hand in.
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

#[test]
fn steps_and_decisions_have_words_of_their_own() {
    let steps = Step::ALL.map(|step| (step.done(), stands(Some(step.code()))));
    for step in Step::ALL {
        let said = (step.done(), stands(Some(step.code())));
        assert_ne!(said.0, step.code(), "{step:?}");
        assert_ne!(said.1, stands(None), "{step:?}");
        let alike = steps
            .iter()
            .filter(|one| one.0 == said.0 || one.1 == said.1);
        assert_eq!(alike.count(), 1, "{step:?}");
    }
    let said = Kind::ALL.map(|kind| settled(kind.code(), Some(3), true));
    let apart: BTreeSet<_> = said.iter().collect();
    assert_eq!(apart.len(), Kind::ALL.len(), "{said:?}");
    let said = LookAgain::ALL.map(|setting| look_again(setting.code()));
    let apart: BTreeSet<_> = said.iter().collect();
    assert_eq!(apart.len(), LookAgain::ALL.len(), "{said:?}");
}
