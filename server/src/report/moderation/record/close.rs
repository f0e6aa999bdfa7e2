//! Closing a round: its record is made and stored in one write.

use super::make::make;
use crate::db::event::{self, NewEvent};
use crate::db::round::{self, Step};
use crate::db::{Error, Writing, moderation_record};
use crate::ids::{RoundId, StaffId};
use crate::report::moderation::settling;

/// What came of closing a round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closing {
    /// It is closed.
    Closed,
    /// The second marks are not shown yet, or it is closed already.
    NotNow,
    /// So many sheets have differences to settle.
    Open(usize),
    /// Not every sheet is marked by both, or not everything marked again that
    /// is to be, and it was not said that this is meant.
    Pending,
}

/// Closes a round; `although_pending` where something is still to be marked,
/// a second time or again.
///
/// # Errors
/// When a query fails.
pub async fn close(
    db: &mut Writing,
    id: RoundId,
    by: StaffId,
    although_pending: bool,
    now: i64,
) -> Result<Closing, Error> {
    let round = round::get(db, id).await?;
    if round.step != Some(Step::Shown) {
        return Ok(Closing::NotNow);
    }
    let settling = settling::load(db, &round).await?;
    if settling.count_open() > 0 {
        return Ok(Closing::Open(settling.count_open()));
    }
    let is_pending = settling.is_again_pending() || settling.count_unfinished() > 0;
    if is_pending && !although_pending {
        return Ok(Closing::Pending);
    }
    round::insert_step(db, id, Step::Closed, by, now).await?;
    let record = make(db, &round, settling).await?;
    let body = serde_json::to_string(&record)?;
    moderation_record::insert(db, id, &body, by, now).await?;
    let left = match is_pending {
        true => ", with work left",
        false => "",
    };
    let done = NewEvent {
        at: now,
        what: "round_closed",
        staff_id: Some(by),
        class_set_id: None,
        detail: &format!("round {id}{left}"),
    };
    event::insert(db, &done).await?;
    Ok(Closing::Closed)
}
