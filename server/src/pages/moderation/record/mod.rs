//! Closing a round, its record, and what is written to that later. For heads
//! of department: a record compares teachers.

mod close;
mod csv;
mod enter;
mod show;
mod view;

use crate::access::Access::Head;
use crate::access::Routes;
use crate::db::moderation_record::{self, Entry, Stored};
use crate::db::{Connection, Error};
use crate::error::AppError;
use crate::ids::{ClassSetId, RoundId};
use crate::pages::moderation::TOLD;
use crate::pages::moderation::settle::BLIND;
use crate::report::moderation::may_see::is_blind;
use crate::report::moderation::record::Record;
use crate::session::SignedIn;

/// What others than heads of department are told.
const COMPARES_COLLEAGUES: &str = "A record compares colleagues, so it is for heads of department alone. Both marks of your own sheets stand on the page of settling.";

const NO_RECORD: AppError =
    AppError::NotFound("There is no record at this address. A round has one once it is closed.");

pub(super) fn routes() -> Routes {
    let head = Head(COMPARES_COLLEAGUES);
    Routes::default()
        .post("/moderation/{round}/close", Head(TOLD), close::post)
        .get("/moderation/{round}/record", head, show::get)
        .post("/moderation/{round}/record", head, enter::post)
        .get("/moderation/{round}/record.csv", head, csv::get)
}

/// A record as it was stored, read, with what was written to it later.
struct Found {
    stored: Stored,
    record: Record,
    entries: Vec<Entry>,
}

/// The record of a round, for those who may see it.
async fn find(db: &mut Connection, by: &SignedIn, id: RoundId) -> Result<Found, AppError> {
    let stored = moderation_record::find(db, id).await?;
    let stored = stored.ok_or(NO_RECORD)?;
    let record: Record = serde_json::from_str(&stored.body).map_err(Error::from)?;
    // A head may mark these classes blind once more, in another round.
    let sets = record.class_sets.iter().map(|set| ClassSetId(set.id));
    if is_blind(db, by.staff_id, sets).await? {
        return Err(BLIND);
    }
    Ok(Found {
        entries: moderation_record::list_entries(db, id).await?,
        stored,
        record,
    })
}
