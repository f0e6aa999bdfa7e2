//! What the program does by itself: at its start, and every hour after.

use std::time::Duration;

use crate::acts::{BlankDueInitials, perform_unheard};
use crate::clock::{Clock, HOUR, Zone};
use crate::db::{Error, Store};

/// Blanks initials once their day has come: now, and then every hour, until
/// the task is ended. What fails is tried again an hour later.
pub async fn every_hour(store: Store, clock: Clock, zone: Zone) {
    loop {
        if let Err(error) = blank_when_due(&store, clock.now(), &zone).await {
            tracing::error!(%error, "initials were not blanked");
        }
        tokio::time::sleep(Duration::from_millis(HOUR.unsigned_abs())).await;
    }
}

/// Blanks all initials of every department whose day has come. Where one
/// fails, the others are seen to all the same.
///
/// # Errors
/// When the data file fails.
pub async fn blank_when_due(store: &Store, now: i64, zone: &Zone) -> Result<(), Error> {
    let today = zone.date(now);
    let departments = store.door().await?.list().await?;
    let mut all = Ok(());
    for department in departments {
        let done = perform_unheard(store, now, department, BlankDueInitials { today }).await;
        all = all.and(done);
    }
    all
}
