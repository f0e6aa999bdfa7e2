//! A data file of an earlier version, and what its pages showed.
//!
//! `27184c8.db.gz` was made by the program of that commit: a small department
//! with lessons, marks, feedback, a register, three rounds and a year before
//! it. How is in the history, in `made.rs` of the commit that added the file.
//! What the pages showed then is in `snapshots/`.

mod copy;
mod shown;
mod words;

use std::fs::File;

use tempfile::TempDir;

use crate::support::{TestApp, sql};

/// Pages of the file, each with the sections that are no part of the
/// comparison, by the names of their headings.
pub(crate) const PAGES: [(&str, &[&str]); 37] = [
    ("/class-sets", &[]),
    ("/kits", &[]),
    ("/comments", &[]),
    ("/staff", &[]),
    ("/schemes", &[]),
    ("/schemes/1", &[]),
    ("/class-sets/15", &[]),
    ("/class-sets/15/summary", &["questions"]),
    ("/class-sets/15/sheets/A", &[]),
    ("/class-sets/15/sheets/B", &[]),
    ("/class-sets/15/sheets/C", &[]),
    ("/class-sets/15/sheets/D", &[]),
    ("/class-sets/15/sheets/D/versions/1", &[]),
    ("/class-sets/15/room", &[]),
    ("/class-sets/15/files/readings.csv", &[]),
    ("/class-sets/15/files/flags.csv", &[]),
    ("/class-sets/15/files/groups.csv", &[]),
    ("/class-sets/15/files/marks.csv", &[]),
    ("/class-sets/15/files/register.csv", &[]),
    ("/class-sets/15/marking", &[]),
    ("/class-sets/15/marking/sheets/B", &[]),
    ("/class-sets/15/feedback", &[]),
    ("/class-sets/15/feedback/print", &[]),
    ("/class-sets/15/register", &[]),
    ("/class-sets/16/summary", &["questions"]),
    ("/class-sets/16/sheets/A", &[]),
    ("/class-sets/5/summary", &["questions"]),
    ("/registers", &[]),
    ("/moderation", &[]),
    ("/moderation/1", &[]),
    ("/moderation/1/record", &["compared"]),
    ("/moderation/1/record.csv", &[]),
    ("/moderation/1/standard", &[]),
    ("/moderation/2", &[]),
    ("/moderation/2/settle", &[]),
    ("/year/kits?year=2025", &[]),
    ("/year/slips?year=2025", &[]),
];

/// What the pages of the data file show, each under its address. Questions
/// about copied readings are no part of it.
pub(crate) async fn walk(app: &TestApp) -> String {
    let mut head = app.signed_in().await;
    let mut all = String::new();
    for (path, without) in PAGES {
        let page = head.opens(path).await;
        let text = match path.ends_with(".csv") {
            true => page.text,
            false => shown::lines(&page.text, without),
        };
        let lines = text
            .lines()
            .filter(|line| !line.contains("copied-readings"));
        all.push_str(&format!("=== {path}\n"));
        lines.for_each(|line| all.push_str(&format!("{line}\n")));
    }
    all
}

/// A copy of the data file that commit 27184c8 made, in a folder of its own.
pub(crate) fn unpacked() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let mut packed = flate2::read::GzDecoder::new(&include_bytes!("27184c8.db.gz")[..]);
    let mut file = File::create(folder.path().join("data.db")).unwrap();
    std::io::copy(&mut packed, &mut file).unwrap();
    folder
}

#[tokio::test]
async fn file_of_27184c8_shows_the_same_pages() {
    let app = TestApp::on(unpacked()).await;
    insta::assert_snapshot!("27184c8", walk(&app).await);
}

#[tokio::test]
async fn record_of_27184c8_is_the_same_byte_for_byte() {
    let app = TestApp::on(unpacked()).await;
    walk(&app).await;
    let mut db = app.sql().await;
    let body: String = sqlx::query_scalar("SELECT body FROM moderation_record")
        .fetch_one(&mut db)
        .await
        .unwrap();
    assert_eq!(
        server::secret::sha256(&body),
        "26b6a85d8f978bb632bc1e5e1737cbdb789bbc9267ce23c344d810d6b7d05841"
    );
}

/// Kits were told apart by their blanks, and a sheet was tied to its kit only
/// where that was listed before.
#[tokio::test]
async fn kits_of_one_name_are_one_and_have_the_sheets_that_name_them() {
    let folder = unpacked();
    let mut db = sql(&folder.path().join("data.db")).await;
    for statement in [
        "INSERT INTO kit (id, department_id, label, label_key, kind) VALUES (20, 1, 'Tank 9', 'tank 9', 'tank')",
        "INSERT INTO kit (id, department_id, label, label_key, kind) VALUES (21, 1, 'Tank  9', 'tank  9', 'tank')",
        "INSERT INTO kit (id, department_id, label, label_key, kind) VALUES (22, 1, 'Tank  8', 'tank  8', 'tank')",
        "UPDATE sheet SET kit_id = 21 WHERE id = 1",
        "INSERT INTO revision (sheet_id, version, kind, body, written_at, visit_id)
            SELECT sheet_id, version + 1, kind, json_set(body, '$.kit', ' TANK 8 '), written_at, visit_id
            FROM revision WHERE sheet_id = 2",
        "UPDATE sheet SET version = version + 1 WHERE id = 2",
    ] {
        sqlx::query(statement).execute(&mut db).await.unwrap();
    }
    let app = TestApp::on(folder).await;
    let mut db = app.sql().await;
    let kits = "SELECT label, label_key FROM kit WHERE id >= 20 ORDER BY id";
    let kits: Vec<(String, String)> = sqlx::query_as(kits).fetch_all(&mut db).await.unwrap();
    let kit = |label: &str, key: &str| (label.to_owned(), key.to_owned());
    assert_eq!(kits, [kit("Tank 9", "tank 9"), kit("Tank  8", "tank 8")]);
    let tied = "SELECT kit_id FROM sheet WHERE id IN (1, 2) ORDER BY id";
    let tied: Vec<Option<i64>> = sqlx::query_scalar(tied).fetch_all(&mut db).await.unwrap();
    assert_eq!(tied, [Some(20), Some(22)]);
}
