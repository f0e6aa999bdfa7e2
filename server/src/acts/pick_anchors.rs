//! The anchors of a round are picked.

use std::collections::HashSet;

use super::{Act, Doing, Event, NotDone, Staff, head, refuse_if};
use crate::db::round::{self, Step};
use crate::db::round_sheet;
use crate::ids::RoundId;
use crate::report::moderation::anchors::{Facts, Pool};

/// Fewest and most anchors.
const FEWEST: usize = 2;
const MOST: usize = 6;

/// Takes sheets that every marker of a round marks first, as they were judged,
/// and lets the marking begin. For a head of department, once in a round.
#[derive(Clone, Debug)]
pub struct PickAnchors {
    pub round: RoundId,
    /// What it is picked from. Judging it takes long, so it was done before.
    pub pool: Pool,
    /// Names of the sheets, as draws call them. Those that are none of the
    /// pool are left out.
    pub sheets: HashSet<String>,
}

/// Why anchors cannot be picked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotPicked {
    /// The round is past this.
    Past,
    /// It has one marker only.
    OneMarker,
    /// Fewer than two sheets.
    TooFew,
    /// More than six.
    TooMany,
    /// A sheet was handed in or marked since the pool was judged.
    Changed,
}

impl Act<Staff> for PickAnchors {
    type Done = ();
    type Stop = NotDone<NotPicked>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        head(by)?;
        let round = round::get(doing.db, self.round).await?;
        refuse_if(round.step.is_some(), NotPicked::Past)?;
        let markers = round::list_markers(doing.db, round.id).await?;
        refuse_if(markers.len() < 2, NotPicked::OneMarker)?;
        let rows = self.pool.rows(&round, &self.sheets);
        refuse_if(rows.len() < FEWEST, NotPicked::TooFew)?;
        refuse_if(rows.len() > MOST, NotPicked::TooMany)?;
        let is_as_judged = self.pool.is_of(&Facts::load(doing.db, &round).await?);
        refuse_if(!is_as_judged, NotPicked::Changed)?;
        for row in &rows {
            round_sheet::insert(doing.db, row).await?;
        }
        round::insert_step(doing.db, round.id, Step::Standard, None, by.id, doing.at).await?;
        let event = Event::AnchorsPicked(round.id, rows.len());
        Ok(doing.record(by, &event).await?)
    }
}
