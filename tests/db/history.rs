use server::db::revision;

use crate::bench_sheet::BOXES;
use crate::support::Lesson;

#[tokio::test]
async fn history_cannot_be_changed_even_by_replacing() {
    let mut at = Lesson::at_bench().await;
    at.keeps("save", &BOXES).await;
    for sql in [
        "INSERT INTO annotation (sheet_id, body, staff_id, written_at) VALUES (1, 'Well done.', 1, 1)",
        "INSERT INTO decision (sheet_id, revision_id, step, slip, row_label, verdict, reason, staff_id, decided_at)
         VALUES (1, 1, 'wavelength', 'scale-left-out', '', 'confirmed', '', 1, 1)",
    ] {
        assert_eq!(at.app.run(sql).await.unwrap(), 1, "{sql}");
    }
    let refused = [
        "UPDATE revision SET body = '{}'",
        "DELETE FROM revision",
        "INSERT OR REPLACE INTO revision SELECT * FROM revision",
        "UPDATE event SET what = 'nothing'",
        "DELETE FROM event",
        "INSERT OR REPLACE INTO event SELECT * FROM event",
        "UPDATE annotation SET body = 'nothing'",
        "DELETE FROM annotation",
        "INSERT OR REPLACE INTO annotation SELECT * FROM annotation",
        "UPDATE decision SET verdict = 'dismissed'",
        "DELETE FROM decision",
        "INSERT OR REPLACE INTO decision SELECT * FROM decision",
    ];
    at.app.refuses(&refused).await;
}

#[tokio::test]
async fn list_of_revisions_comes_back() {
    let mut at = Lesson::at_bench().await;
    at.keeps("save", &BOXES).await;
    let mut db = at.app.db().await;
    let all = revision::list_past(&mut db, server::ids::SheetId(1))
        .await
        .unwrap();
    assert_eq!(all.len(), 1);
    assert_eq!(all[0].version, 1);
    let latest = revision::list_latest(&mut db, server::ids::ClassSetId(1))
        .await
        .unwrap();
    let first = revision::find_version(&mut db, server::ids::SheetId(1), 1)
        .await
        .unwrap();
    assert_eq!(latest[0].entry, first.unwrap().entry);
}
