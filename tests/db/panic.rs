//! A job that panics.

use server::acts::{Act, Anyone, Doing, perform};
use server::changes::Changes;
use server::db::kit::{self, Kind};
use server::db::{Error, Store};
use server::ids::DEPARTMENT;

use crate::support::TestApp;

/// Counts the kits.
struct Count;

impl Act for Count {
    type By = Anyone;
    type Done = usize;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<usize, Error> {
        Ok(kit::list(doing.read()).await?.len())
    }
}

/// Counts them and panics.
struct Spill;

impl Act for Spill {
    type By = Anyone;
    type Done = ();

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        let kits = doing.perform(0, by, Count).await?;
        panic!("spilt beside {kits} kits");
    }
}

async fn act<A: Act<By = Anyone>>(app: &TestApp, act: A) -> Result<A::Done, Error> {
    perform(&app.store, &Changes::new(1), 0, &(DEPARTMENT, Anyone), act).await
}

async fn insert(store: &Store, label: &'static str, spills: bool) -> Result<(), Error> {
    let write = store.writer().run(move |db| {
        Box::pin(async move {
            kit::insert(db, label, Kind::Tank).await?;
            assert!(!spills, "spilt");
            Ok(())
        })
    });
    write.await
}

fn says(outcome: Result<(), Error>, message: &str) -> bool {
    matches!(outcome, Err(Error::Panicked(said)) if said == message)
}

#[tokio::test]
async fn act_that_panics_is_answered_with_an_error_and_the_next_goes_on() {
    let app = TestApp::new().await;
    assert!(says(act(&app, Spill).await, "spilt beside 0 kits"));
    assert_eq!(act(&app, Count).await.unwrap(), 0);
    // And so does the program: an account is made.
    app.teacher().await.get("/class-sets").await.expect(200);
}

#[tokio::test]
async fn job_that_panics_leaves_nothing_and_its_batch_is_kept() {
    let app = TestApp::new().await;
    let store = &app.store;
    // All are queued before the writer is asked for the first of them.
    let (before, spilt, counted, after) = tokio::join!(
        insert(store, "Tank 1", false),
        insert(store, "Tank 2", true),
        act(&app, Count),
        insert(store, "Tank 3", false),
    );
    assert!(says(spilt, "spilt"));
    assert_eq!(counted.unwrap(), 1, "nothing of the one that panicked");
    before.and(after).unwrap();
    let mut db = app.sql().await;
    let kept = sqlx::query_scalar("SELECT label FROM kit ORDER BY id");
    let kept: Vec<String> = kept.fetch_all(&mut db).await.unwrap();
    assert_eq!(kept, ["Tank 1", "Tank 3"]);
}

#[tokio::test]
async fn job_that_panics_before_it_begins_is_answered_too() {
    let app = TestApp::new().await;
    let spilt = app.store.writer().run::<(), _>(|_| panic!("spilt at once"));
    assert!(says(spilt.await, "spilt at once"));
    insert(&app.store, "Tank 1", false).await.unwrap();
}
