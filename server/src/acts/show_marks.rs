//! Everyone's marks are shown.

use super::{Act, Doing, Event, NotDone, Staff, refuse_if};
use crate::db::round::{self, Step};
use crate::db::round_sheet::{self, Kind};
use crate::ids::RoundId;
use crate::report::moderation::workload::{Workload, being_marked};

/// Shows the marks of what is being marked: from then on they stand as they
/// are. A head of department does it at any time, a marker of the round once
/// all have finished.
#[derive(Clone, Debug)]
pub struct ShowMarks {
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

impl Act<Staff> for ShowMarks {
    type Done = Shown;
    type Stop = NotDone<NotShown>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Shown, Self::Stop> {
        let round = round::get(doing.db, self.round).await?;
        let Some(kind) = being_marked(round.step) else {
            return Ok(Shown::Nothing);
        };
        let progress = round_sheet::list_progress(doing.db, round.id, None).await?;
        let work = Workload::of(&progress, kind);
        let is_complete = work.is_complete();
        let may_show = by.is_head || (is_complete && work.find(by.id).is_some());
        refuse_if(!may_show, NotShown::NotAllowed)?;
        let is_another = self.kind.is_some_and(|seen| seen != kind);
        refuse_if(is_another, NotShown::AnotherPage)?;
        refuse_if(!is_complete && !self.is_early, NotShown::NotAllFinished)?;
        let step = match kind {
            Kind::Anchor => Step::StandardShown,
            Kind::Sample => Step::Shown,
        };
        round::insert_step(doing.db, round.id, step, None, by.id, doing.at).await?;
        let event = Event::MarksShown(round.id, kind, work.unfinished());
        doing.record(by, &event).await?;
        Ok(Shown::Marks(kind))
    }
}
