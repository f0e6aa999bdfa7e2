//! Closing a round, its record, and what is written to that later. For heads
//! of department: a record compares teachers.

pub mod close;
pub mod csv;
pub mod enter;
pub mod show;
mod view;

use crate::db::moderation_record::{self, Entry, Stored};
use crate::db::staff::Role;
use crate::db::{Connection, Error};
use crate::error::AppError;
use crate::ids::RoundId;
use crate::report::moderation::record::Record;
use crate::session::SignedIn;

/// A record as it was stored, read, with what was written to it later.
struct Found {
    stored: Stored,
    record: Record,
    entries: Vec<Entry>,
}

/// Refuses whoever is not a head of department.
fn only_head(by: &SignedIn) -> Result<(), AppError> {
    if by.role == Role::Head {
        return Ok(());
    }
    Err(AppError::Forbidden(
        "A record compares colleagues, so it is for heads of department alone. Both marks of your own sheets stand on the page of settling.",
    ))
}

/// The record of a round.
async fn find(db: &mut Connection, id: RoundId) -> Result<Found, AppError> {
    let stored = moderation_record::find(db, id).await?;
    let stored = stored.ok_or(AppError::NotFound(
        "There is no record at this address. A round has one once it is closed.",
    ))?;
    let record = serde_json::from_str(&stored.body).map_err(Error::from)?;
    Ok(Found {
        entries: moderation_record::list_entries(db, id).await?,
        stored,
        record,
    })
}
