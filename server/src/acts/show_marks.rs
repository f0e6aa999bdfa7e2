//! Everyone's marks are shown.

use super::{Act, Doing, Event, Staff};
use crate::db::Error;
use crate::db::round::{self, Step};
use crate::db::round_sheet::{self, Kind};
use crate::ids::RoundId;
use crate::report::moderation::workload::{Workload, being_marked};

/// Shows the marks of what is being marked: from then on they stand as they
/// are. A head of department does it at any time, a marker of the round once
/// all have finished.
#[derive(Clone, Debug)]
pub struct ShowMarks {
    /// Of which round.
    pub round: RoundId,
    /// What the page said is being marked; `None`: it said nothing. An old
    /// page still tells of the anchors when the sample is drawn, and what is
    /// shown stays shown.
    pub kind: Option<Kind>,
    /// Whether it was said that showing before all have finished is meant.
    pub is_early: bool,
}

/// What came of it, where nothing went wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// The marks of these.
    Marks(Kind),
    /// Nothing is being marked.
    Nothing,
}

/// Why nothing was shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotShown {
    /// Not by this person, or not yet.
    NotAllowed,
    /// The page was about something else.
    AnotherPage,
    /// Some have not finished, and it was not said that this is meant.
    NotAllFinished,
}

impl Act for ShowMarks {
    type By = Staff;
    type Done = Result<Shown, NotShown>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Self::Done, Error> {
        let round = round::get(doing.db, self.round).await?;
        let Some(kind) = being_marked(round.step) else {
            return Ok(Ok(Shown::Nothing));
        };
        let progress = round_sheet::list_progress(doing.db, round.id, None).await?;
        let work = Workload::of(&progress, kind);
        if !by.is_head && (work.find(by.id).is_none() || !work.is_complete()) {
            return Ok(Err(NotShown::NotAllowed));
        }
        if self.kind.is_some_and(|seen| seen != kind) {
            return Ok(Err(NotShown::AnotherPage));
        }
        if !work.is_complete() && !self.is_early {
            return Ok(Err(NotShown::NotAllFinished));
        }
        let step = match kind {
            Kind::Anchor => Step::StandardShown,
            Kind::Sample => Step::Shown,
        };
        round::insert_step(doing.db, round.id, step, by.id, doing.at).await?;
        let event = Event::MarksShown(round.id, kind, work.unfinished());
        doing.record(by, &event).await?;
        Ok(Ok(Shown::Marks(kind)))
    }
}
