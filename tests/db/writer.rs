use futures_util::FutureExt as _;
use server::acts::{self, Act, Anyone, Doing, ListKit, MakeClassSet, SetState, Staff};
use server::changes::Changes;
use server::db::class_set::State;
use server::db::kit::{self, Kind};
use server::db::{Error, Store};
use server::ids::ClassSetId;

use crate::support::{DEPARTMENT, Join, NAME, TestApp, act, sql};

/// Lists a kit and a spare. The spare of a bad one breaks the table's rule,
/// after the first has been listed.
struct ListTwo(String);

impl Act<Staff> for ListTwo {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        let spare = if self.0.starts_with("bad") {
            "x".repeat(99)
        } else {
            format!("{} spare", self.0)
        };
        for label in [self.0, spare] {
            let kind = Kind::Tank;
            let listed = doing.perform(0, by, ListKit { label, kind }).await?;
            listed.unwrap();
        }
        Ok(())
    }
}

/// An application with an account.
async fn staffed() -> (TestApp, Staff) {
    let app = TestApp::new().await;
    let by = app.act(Anyone, Join(NAME)).await;
    (app, by)
}

async fn list_two(store: &Store, by: Staff, label: &str) -> Result<(), Error> {
    act(store, 0, by, ListTwo(label.to_owned())).await
}

#[tokio::test]
async fn failing_job_does_not_sink_its_batch() {
    let (app, by) = staffed().await;
    let mut jobs = tokio::task::JoinSet::new();
    for n in 0..60 {
        let label = if n % 3 == 0 {
            format!("bad {n}")
        } else {
            format!("good {n}")
        };
        let store = app.store.clone();
        jobs.spawn(async move { (n % 3 == 0, list_two(&store, by, &label).await.is_err()) });
    }
    for (is_bad, failed) in jobs.join_all().await {
        assert_eq!(is_bad, failed);
    }
    let kits = kit::list(&mut app.db().await).await.unwrap();
    assert_eq!(
        kits.len(),
        80,
        "two from each of the forty good jobs, nothing from the bad ones"
    );
    assert!(kits.iter().all(|k| k.label.starts_with("good")), "{kits:?}");
}

#[tokio::test]
async fn answer_means_that_another_connection_sees_it() {
    let (app, by) = staffed().await;
    for n in 0..20 {
        let label = format!("good {n}");
        list_two(&app.store, by, &label).await.unwrap();
        let found = kit::find_by_label(&mut app.db().await, &label)
            .await
            .unwrap();
        assert!(found.is_some(), "{label}");
    }
}

#[tokio::test]
async fn job_goes_on_when_nobody_waits_for_it() {
    let (app, by) = staffed().await;
    let store = app.store.clone();
    let task = tokio::spawn(async move { list_two(&store, by, "good 1").await });
    tokio::task::yield_now().await;
    task.abort();
    list_two(&app.store, by, "good 2").await.unwrap();
    let kits = kit::list(&mut app.db().await).await.unwrap();
    assert!(
        kits.len() == 2 || kits.len() == 4,
        "whole jobs only: {kits:?}"
    );
}

#[tokio::test]
async fn writer_stops_after_a_commit_that_failed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    let (store, writing) = acts::open(&path).await.unwrap();
    let by = act(&store, 0, Anyone, Join(NAME)).await.unwrap();
    // Whoever adds a kit breaks a rule that is looked at when all is committed.
    for spoilt in [
        "CREATE TABLE spare (kit_id INTEGER REFERENCES kit (id) DEFERRABLE INITIALLY DEFERRED)",
        "CREATE TRIGGER spare_of_none AFTER INSERT ON kit BEGIN INSERT INTO spare VALUES (-1); END",
    ] {
        let write = sqlx::query(spoilt).execute(&mut sql(&path).await).await;
        write.unwrap();
    }
    let broken = list_two(&store, by, "good 1").await;
    assert!(matches!(broken, Err(Error::Stopped)), "not acknowledged");
    assert!(
        writing.await.unwrap().is_err(),
        "the task ends with the error"
    );
    assert!(
        matches!(list_two(&store, by, "good 2").await, Err(Error::Stopped)),
        "no more writes"
    );
}

#[tokio::test]
async fn data_is_there_after_the_program_ended() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    let (store, writing) = acts::open(&path).await.unwrap();
    let by = act(&store, 0, Anyone, Join(NAME)).await.unwrap();
    list_two(&store, by, "good 1").await.unwrap();
    drop(store);
    writing.await.unwrap().unwrap();
    let (store, _writing) = acts::open(&path).await.unwrap();
    let kits = kit::list(&mut store.reader(DEPARTMENT).await.unwrap())
        .await
        .unwrap();
    assert_eq!(kits.len(), 2);
}

/// Closes a class set, and fails after that or not.
struct Close {
    class_set: ClassSetId,
    fails: bool,
}

impl Act<Staff> for Close {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        let close = SetState {
            class_set: self.class_set,
            state: State::Closed,
        };
        doing.perform(0, by, close).await?;
        match self.fails {
            true => Err(Error::NoSuch),
            false => Ok(()),
        }
    }
}

async fn make_class_set(store: &Store, by: Staff) -> ClassSetId {
    let make = MakeClassSet {
        class_name: "10B/Ph2".to_owned(),
        method: analysis::method::Method::RippleTank,
        held_on: jiff::civil::date(2026, 11, 24),
        groups: 1,
        is_live: true,
    };
    act(store, 0, by, make).await.unwrap()
}

#[tokio::test]
async fn what_is_on_disk_is_told_and_what_failed_is_not() {
    let (app, by) = staffed().await;
    let class_set = make_class_set(&app.store, by).await;
    let changes = Changes::new(0);
    for (fails, told) in [(true, 0), (false, 1)] {
        let close = Close { class_set, fails };
        let closed = acts::perform(&app.store, &changes, 0, &(DEPARTMENT, by), close).await;
        assert_eq!(closed.is_err(), fails);
        assert_eq!(changes.count(class_set), told);
    }
}

#[tokio::test]
async fn what_is_on_disk_is_told_though_nobody_waits_for_the_answer() {
    let (app, by) = staffed().await;
    let class_set = make_class_set(&app.store, by).await;
    let changes = Changes::new(0);
    let fails = false;
    let actor = (DEPARTMENT, by);
    let close = Close { class_set, fails };
    let mut write = Box::pin(acts::perform(&app.store, &changes, 0, &actor, close));
    assert!(write.as_mut().now_or_never().is_none(), "it is queued");
    drop(write);
    // Acts are performed in the order of the queue.
    list_two(&app.store, by, "good").await.unwrap();
    assert_eq!(changes.count(class_set), 1);
}
