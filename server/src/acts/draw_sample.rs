//! The sample of a round is drawn.

use super::{Act, Doing, Event, NotDone, Staff, head, refuse_if};
use crate::db::round::{self, Step};
use crate::db::round_sheet;
use crate::ids::RoundId;
use crate::report::moderation::draw::draw;

/// Draws the sample of a round, where it is still the one that was shown. For
/// a head of department. Pressed twice, it is drawn once.
#[derive(Clone, Debug)]
pub struct DrawSample {
    pub round: RoundId,
    /// What was shown, as `Draw::digest` tells it.
    pub digest: String,
}

/// Marks have changed since the draw was shown, or nothing can be drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DrawnOtherwise;

impl Act<Staff> for DrawSample {
    type Done = ();
    type Stop = NotDone<DrawnOtherwise>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        head(by)?;
        let round = round::get(doing.db, self.round).await?;
        if !matches!(round.step, None | Some(Step::StandardShown)) {
            return Ok(());
        }
        let draw = draw(doing.db, &round).await?;
        let is_as_shown = !draw.taken.is_empty() && draw.digest() == self.digest;
        refuse_if(!is_as_shown, DrawnOtherwise)?;
        for row in draw.rows(&round) {
            round_sheet::insert(doing.db, &row).await?;
        }
        round::insert_step(doing.db, round.id, Step::Drawn, draw.asked, by.id, doing.at).await?;
        let taken = draw.taken.iter();
        let names = taken.map(|taken| draw.sheet(taken).name.clone()).collect();
        let event = Event::SampleDrawn(round.id, names);
        Ok(doing.record(by, &event).await?)
    }
}
