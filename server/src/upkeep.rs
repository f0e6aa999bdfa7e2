//! What the program does by itself: at its start, and every hour after.

use std::time::Duration;

use jiff::civil::Date;

use crate::clock::{Clock, HOUR, Zone};
use crate::db::event::{self, NewEvent};
use crate::db::{Connection, Error, Store, Writing, department, register};
use crate::ids::StaffId;

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

/// Blanks all initials if the day has come that the school set.
///
/// # Errors
/// When the data file fails.
pub async fn blank_when_due(store: &Store, now: i64, zone: &Zone) -> Result<(), Error> {
    let today = zone.date(now);
    if !is_due(&mut store.reader(crate::ids::DEPARTMENT).await?, today).await? {
        return Ok(());
    }
    let write = store.writer().run(move |db| {
        Box::pin(async move {
            // The day may have been put off meanwhile.
            if is_due(db, today).await? {
                blank(db, now, None).await?;
            }
            Ok(())
        })
    });
    write.await
}

async fn is_due(db: &mut Connection, today: Date) -> Result<bool, Error> {
    let department = department::get(db).await?;
    Ok(department.keeps_initials && !department.keeps_initials_on(today))
}

/// Ends the keeping of initials, and blanks those that there are. `by` is
/// `None` where their day has come.
///
/// # Errors
/// When a query fails.
pub async fn blank(db: &mut Writing, now: i64, by: Option<StaffId>) -> Result<(), Error> {
    let was_kept = department::get(db).await?.keeps_initials;
    department::update_initials_until(db, None).await?;
    let count = register::update_blanked(db).await?;
    if !was_kept && count == 0 {
        return Ok(());
    }
    let what = NewEvent {
        at: now,
        what: "initials_blanked",
        staff_id: by,
        class_set_id: None,
        detail: &format!("of {count} pupils"),
    };
    event::insert(db, &what).await
}
