//! A round is closed.

use super::{Act, Doing, Event, NotDone, Staff, head, refuse_if};
use crate::db::round::{self, Step};
use crate::db::{Error, moderation_record};
use crate::ids::RoundId;
use crate::report::moderation::record::make;
use crate::report::moderation::settling;

/// Closes a round on which nothing is left to settle, and makes its record.
/// For a head of department.
#[derive(Clone, Debug)]
pub struct CloseRound {
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

impl Act<Staff> for CloseRound {
    type Done = ();
    type Stop = NotDone<NotClosed>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        head(by)?;
        let round = round::get(doing.db, self.round).await?;
        refuse_if(round.step != Some(Step::Shown), NotClosed::NotNow)?;
        let settling = settling::load(doing.db, &round).await?;
        let open = settling.count_open();
        refuse_if(open > 0, NotClosed::Open(open))?;
        let is_pending = settling.is_again_pending() || settling.count_unfinished() > 0;
        refuse_if(is_pending && !self.although_pending, NotClosed::Pending)?;
        round::insert_step(doing.db, round.id, Step::Closed, None, by.id, doing.at).await?;
        let record = make(doing.db, &round, &settling).await?;
        let body = serde_json::to_string(&record).map_err(Error::from)?;
        moderation_record::insert(doing.db, round.id, &body, by.id, doing.at).await?;
        let event = Event::RoundClosed(round.id, is_pending);
        Ok(doing.record(by, &event).await?)
    }
}
