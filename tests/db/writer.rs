use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use futures_util::FutureExt as _;
use server::db::kit::{self, Kind};
use server::db::{Error, Store};

use crate::support::{TestApp, sql};

async fn insert(store: Store, label: String) -> Result<(), Error> {
    let write = store.writer().run(move |db| {
        Box::pin(async move {
            kit::insert(db, &label, Kind::Tank).await?;
            // Too long a label breaks the table's rule after the first insert.
            let long = if label.starts_with("bad") {
                "x".repeat(99)
            } else {
                format!("{label} spare")
            };
            kit::insert(db, &long, Kind::Tank).await?;
            Ok(())
        })
    });
    write.await
}

#[tokio::test]
async fn failing_job_does_not_sink_its_batch() {
    let app = TestApp::new().await;
    let mut jobs = tokio::task::JoinSet::new();
    for n in 0..60 {
        let label = if n % 3 == 0 {
            format!("bad {n}")
        } else {
            format!("good {n}")
        };
        let store = app.store.clone();
        jobs.spawn(async move { (n % 3 == 0, insert(store, label).await.is_err()) });
    }
    for (is_bad, failed) in jobs.join_all().await {
        assert_eq!(is_bad, failed);
    }
    let kits = kit::list(&mut app.store.reader(server::ids::DEPARTMENT).await.unwrap())
        .await
        .unwrap();
    assert_eq!(
        kits.len(),
        80,
        "two from each of the forty good jobs, nothing from the bad ones"
    );
    assert!(kits.iter().all(|k| k.label.starts_with("good")), "{kits:?}");
}

#[tokio::test]
async fn answer_means_that_another_connection_sees_it() {
    let app = TestApp::new().await;
    for n in 0..20 {
        let label = format!("good {n}");
        insert(app.store.clone(), label.clone()).await.unwrap();
        let found = kit::find_by_label(
            &mut app.store.reader(server::ids::DEPARTMENT).await.unwrap(),
            &label,
        )
        .await
        .unwrap();
        assert!(found.is_some(), "{label}");
    }
}

#[tokio::test]
async fn job_goes_on_when_nobody_waits_for_it() {
    let app = TestApp::new().await;
    let task = tokio::spawn(insert(app.store.clone(), "good 1".to_owned()));
    tokio::task::yield_now().await;
    task.abort();
    insert(app.store.clone(), "good 2".to_owned())
        .await
        .unwrap();
    let kits = kit::list(&mut app.store.reader(server::ids::DEPARTMENT).await.unwrap())
        .await
        .unwrap();
    assert!(
        kits.len() == 2 || kits.len() == 4,
        "whole jobs only: {kits:?}"
    );
}

#[tokio::test]
async fn writer_stops_after_a_commit_that_failed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    let (store, writing) = server::acts::open(&path).await.unwrap();
    // Whoever adds a kit breaks a rule that is looked at when all is committed.
    for spoilt in [
        "CREATE TABLE spare (kit_id INTEGER REFERENCES kit (id) DEFERRABLE INITIALLY DEFERRED)",
        "CREATE TRIGGER spare_of_none AFTER INSERT ON kit BEGIN INSERT INTO spare VALUES (-1); END",
    ] {
        let write = sqlx::query(spoilt).execute(&mut sql(&path).await).await;
        write.unwrap();
    }
    let broken = insert(store.clone(), "good 1".to_owned());
    assert!(
        matches!(broken.await, Err(Error::Stopped)),
        "not acknowledged"
    );
    assert!(
        writing.await.unwrap().is_err(),
        "the task ends with the error"
    );
    assert!(
        matches!(insert(store, "good".to_owned()).await, Err(Error::Stopped)),
        "no more writes"
    );
}

#[tokio::test]
async fn data_is_there_after_the_program_ended() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    let (store, writing) = server::acts::open(&path).await.unwrap();
    insert(store.clone(), "good 1".to_owned()).await.unwrap();
    drop(store);
    writing.await.unwrap().unwrap();
    let (store, _writing) = server::acts::open(&path).await.unwrap();
    let kits = kit::list(&mut store.reader(server::ids::DEPARTMENT).await.unwrap())
        .await
        .unwrap();
    assert_eq!(kits.len(), 2);
}

/// Writes a kit, and counts what is told.
async fn insert_and_tell(store: &Store, label: &str, told: &Arc<AtomicUsize>) -> Result<(), Error> {
    let (label, told) = (label.to_owned(), Arc::clone(told));
    let tell = move || {
        told.fetch_add(1, Ordering::Relaxed);
    };
    let write = store.writer().run_and_tell(tell, move |db| {
        Box::pin(async move {
            kit::insert(db, &label, Kind::Tank).await?;
            Ok(())
        })
    });
    write.await
}

#[tokio::test]
async fn what_is_on_disk_is_told_and_what_failed_is_not() {
    let app = TestApp::new().await;
    let told = Arc::new(AtomicUsize::new(0));
    let too_long = "x".repeat(99);
    let failed = insert_and_tell(&app.store, &too_long, &told).await;
    assert!(failed.is_err(), "too long a label");
    assert_eq!(told.load(Ordering::Relaxed), 0);
    insert_and_tell(&app.store, "Tank 1", &told).await.unwrap();
    assert_eq!(told.load(Ordering::Relaxed), 1);
}

#[tokio::test]
async fn what_is_on_disk_is_told_though_nobody_waits_for_the_answer() {
    let app = TestApp::new().await;
    let told = Arc::new(AtomicUsize::new(0));
    let mut write = Box::pin(insert_and_tell(&app.store, "Tank 1", &told));
    assert!(write.as_mut().now_or_never().is_none(), "it is queued");
    drop(write);
    // Jobs are done in the order of the queue.
    insert(app.store.clone(), "good".to_owned()).await.unwrap();
    assert_eq!(told.load(Ordering::Relaxed), 1);
}
