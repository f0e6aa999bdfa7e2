//! The markers at the sheets of a round, each without anybody else's marks.

use server::acts::{AwardSecond, Doing};
use server::clock::MINUTE;
use server::db::Error;
use server::db::round_sheet::{self, Kind};
use server::ids::{RoundId, RoundSheetId};
use server::report::desk::second;

use super::Held;
use crate::department::done;
use crate::marker::{EVEN, Temper};
use crate::pile::Marker;

impl Held {
    /// Lets each mark as many of their sheets of one kind as is planned, in
    /// the order in which the page has them. Whoever has agreed a standard on
    /// the anchors marks the sample by it.
    pub(super) async fn mark(
        &self,
        doing: &mut Doing<'_>,
        round: RoundId,
        kind: Kind,
    ) -> Result<(), Error> {
        for marker in &self.markers {
            let own = Some(marker.staff.id);
            let mut own = round_sheet::list_progress(doing.read(), round, own).await?;
            own.retain(|line| line.kind == kind);
            let (temper, from, most) = match kind {
                Kind::Anchor => (marker.temper(), 1, own.len()),
                Kind::Sample => (EVEN, 5, self.plan.reach.of(marker.teacher, own.len())),
            };
            let mut at = self.school_days_later(from);
            for line in own.iter().take(most) {
                at += 6 * MINUTE;
                mark_sheet(doing, at, *marker, temper, (round, line.round_sheet_id)).await?;
            }
        }
        Ok(())
    }
}

async fn mark_sheet(
    doing: &mut Doing<'_>,
    at: i64,
    marker: Marker,
    temper: Temper,
    (round, sheet): (RoundId, RoundSheetId),
) -> Result<(), Error> {
    let found = round_sheet::find(doing.read(), round, sheet).await?;
    let found = found.ok_or(Error::Missing)?;
    let desk = second::load(doing.read(), found, marker.staff.id).await?;
    let awards = marker.awards(&desk, 0, temper);
    for (point, award) in desk.points.iter().zip(awards) {
        let act = AwardSecond {
            round,
            sheet,
            key: point.key,
            marks: Some(i64::from(award.marks)),
            reason: award.reason.to_owned(),
        };
        done(doing.perform(at, marker.staff, act).await?)?;
    }
    Ok(())
}
