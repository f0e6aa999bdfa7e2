//! A round is closed.

use super::{Act, Doing, Event, Staff, head};
use crate::db::round::{self, Step};
use crate::db::{Error, moderation_record};
use crate::ids::RoundId;
use crate::report::moderation::record::make;
use crate::report::moderation::settling;

/// Closes a round on which nothing is left to settle, and makes its record.
/// For a head of department.
#[derive(Clone, Debug)]
pub struct CloseRound {
    /// Which round.
    pub round: RoundId,
    /// Whether it is meant although something is still to be marked, a second
    /// time or again.
    pub although_pending: bool,
}

/// Why a round is not closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotClosed {
    /// The second marks are not shown yet, or it is closed already.
    NotNow,
    /// So many sheets have differences to settle.
    Open(usize),
    /// Not every sheet is marked by both, or not everything marked again that
    /// is to be, and it was not said that this is meant.
    Pending,
}

impl Act for CloseRound {
    type By = Staff;
    type Done = Result<(), NotClosed>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Self::Done, Error> {
        head(by)?;
        let round = round::get(doing.db, self.round).await?;
        if round.step != Some(Step::Shown) {
            return Ok(Err(NotClosed::NotNow));
        }
        let settling = settling::load(doing.db, &round).await?;
        if settling.count_open() > 0 {
            return Ok(Err(NotClosed::Open(settling.count_open())));
        }
        let is_pending = settling.is_again_pending() || settling.count_unfinished() > 0;
        if is_pending && !self.although_pending {
            return Ok(Err(NotClosed::Pending));
        }
        round::insert_step(doing.db, round.id, Step::Closed, by.id, doing.at).await?;
        let record = make(doing.db, &round, settling).await?;
        let body = serde_json::to_string(&record)?;
        moderation_record::insert(doing.db, round.id, &body, by.id, doing.at).await?;
        let left = match is_pending {
            true => ", with work left",
            false => "",
        };
        let event = Event::RoundClosed(round.id, left.to_owned());
        doing.record(by, &event).await?;
        Ok(Ok(()))
    }
}
