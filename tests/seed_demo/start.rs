//! Starting the program: what it makes, what it leaves alone, what it says.

use std::path::Path;

use server::acts::Anyone;
use server::db::revision::Entry;
use server::db::{class_set, mark, round, scheme, second_mark, staff};

use crate::support::{DEPARTMENT, Join, act};

use super::{class_sets, demo, open, printed, seed_demo};

#[tokio::test]
async fn second_start_serves_the_same_demo() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("demo.db");
    let first = printed(&seed_demo(&data, &["--make-only"]));
    assert!(
        first.contains("Lesson code") && first.contains("password: "),
        "{first}"
    );
    assert_eq!(
        printed(&seed_demo(&data, &["--make-only"])),
        first,
        "as it is"
    );
    assert_ne!(
        printed(&seed_demo(&data, &["--make-only", "--fresh"])),
        first,
        "another lesson code"
    );
}

#[tokio::test]
async fn same_day_gives_the_same_sheets_and_the_same_marks() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("other.db");
    printed(&seed_demo(&data, &["--make-only"]));
    let (one, other) = (entries(demo()).await, entries(&data).await);
    assert!(one == other, "the same sheets twice");
    let (one, other) = (marks(demo()).await, marks(&data).await);
    assert!(one.len() > 3000, "{} marks", one.len());
    assert!(one == other, "the same marks twice");
}

async fn entries(data: &Path) -> Vec<Option<Entry>> {
    let groups = class_sets(data)
        .await
        .into_iter()
        .flat_map(|report| report.groups);
    groups
        .map(|group| group.work.map(|work| work.revision.entry))
        .collect()
}

/// All first and second marks.
async fn marks(data: &Path) -> Vec<Option<i64>> {
    let mut db = open(data).await;
    let mut marks = Vec::new();
    for scheme in scheme::list(&mut db).await.unwrap() {
        for listed in class_set::list(&mut db).await.unwrap() {
            let id = listed.class_set.id;
            let standing = mark::list_standing(&mut db, &[id], scheme.id, None)
                .await
                .unwrap();
            marks.extend(standing.into_iter().map(|mark| mark.awarded));
        }
    }
    for round in round::list(&mut db).await.unwrap() {
        let second = second_mark::list_in_round(&mut db, round.id).await.unwrap();
        marks.extend(second.into_iter().map(|mark| mark.awarded));
    }
    marks
}

#[tokio::test]
async fn file_of_somebody_else_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("school.db");
    let (store, writing) = server::acts::open(&data).await.unwrap();
    act(&store, 0, Anyone, Join("Ms Fell")).await.unwrap();
    store.close().await;
    writing.await.unwrap().unwrap();
    for more in [&["--make-only"][..], &["--make-only", "--fresh"]] {
        let refused = seed_demo(&data, more);
        assert!(!refused.status.success(), "{more:?}");
        let said = String::from_utf8_lossy(&refused.stderr);
        assert!(said.contains("was not made by seed-demo"), "{said}");
    }
    let (store, _writing) = server::acts::open(&data).await.unwrap();
    let count = staff::count(&mut store.reader(DEPARTMENT).await.unwrap())
        .await
        .unwrap();
    assert_eq!(count, 1, "still there");
}

#[test]
fn taken_port_is_said_plainly() {
    let folder = tempfile::tempdir().unwrap();
    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port().to_string();
    let refused = seed_demo(&folder.path().join("demo.db"), &["--port", &port]);
    assert!(!refused.status.success(), "the port is taken");
    let said = String::from_utf8_lossy(&refused.stderr);
    assert!(
        said.contains("another program uses it") && said.contains("--port"),
        "{said}"
    );
}
