//! An act that panics.

use server::acts::{Act, Anyone, Doing, ListKit, Staff};
use server::db::Error;
use server::db::kit::{self, Kind};

use crate::support::{HEAD, Join, NAME, TestApp, act};

fn tank(number: u8) -> ListKit {
    ListKit {
        label: format!("Tank {number}"),
        kind: Kind::Tank,
    }
}

/// Lists Tank 2 and panics.
struct Spill;

impl Act<Staff> for Spill {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        doing.perform(0, by, tank(2)).await?.unwrap();
        let kits = kit::list(doing.read()).await?.len();
        panic!("spilt beside {kits} kits");
    }
}

fn is_told(outcome: Result<(), Error>, message: &str) -> bool {
    matches!(outcome, Err(Error::Panicked(said)) if said == message)
}

#[tokio::test]
async fn act_that_panics_is_answered_and_the_program_goes_on() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let spilt = act(&app.store, 0, HEAD, Spill).await;
    assert!(is_told(spilt, "spilt beside 1 kits"));
    teacher.make_class_set("ripple-tank").await;
}

#[tokio::test]
async fn act_that_panics_leaves_nothing_and_its_batch_is_kept() {
    let app = TestApp::new().await;
    let store = &app.store;
    let by = app.act(Anyone, Join(NAME)).await;
    // All are queued before the writer is asked for the first of them.
    let (before, spilt, after) = tokio::join!(
        act(store, 0, by, tank(1)),
        act(store, 0, by, Spill),
        act(store, 0, by, tank(3)),
    );
    assert!(is_told(spilt, "spilt beside 2 kits"));
    before.unwrap().unwrap();
    after.unwrap().unwrap();
    let mut db = app.sql().await;
    for (sql, kept) in [
        ("SELECT label FROM kit ORDER BY id", ["Tank 1", "Tank 3"]),
        (
            "SELECT detail FROM event WHERE what = 'kit_added' ORDER BY id",
            ["Tank 1", "Tank 3"],
        ),
    ] {
        let found: Vec<String> = sqlx::query_scalar(sql).fetch_all(&mut db).await.unwrap();
        assert_eq!(found, kept, "{sql}");
    }
}
