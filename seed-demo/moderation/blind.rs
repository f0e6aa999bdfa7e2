//! A marker at the sheets of a round, without anybody else's marks.

use server::acts::{AwardSecond, Doing};
use server::clock::MINUTE;
use server::db::Error;
use server::db::round_sheet::{self, Kind, RoundSheet};
use server::ids::RoundId;
use server::report::desk::second;

use crate::department::done;
use crate::marker::{Eye, Temper};
use crate::pile::Marker;

/// One marker's share of a round.
#[derive(Clone, Copy, Debug)]
pub(super) struct Share {
    pub(super) round: RoundId,
    pub(super) kind: Kind,
    pub(super) marker: Marker,
    pub(super) temper: Temper,
    /// When the first sheet is taken up, Unix ms.
    pub(super) from: i64,
}

impl Share {
    /// Marks as many of the sheets as `some` says of their number, in the
    /// order in which the page has them.
    pub(super) async fn mark(
        self,
        doing: &mut Doing<'_>,
        some: impl Fn(usize) -> usize + Send,
    ) -> Result<(), Error> {
        let marker = Some(self.marker.staff.id);
        let own = round_sheet::list_progress(doing.read(), self.round, marker).await?;
        let own: Vec<_> = own.iter().filter(|line| line.kind == self.kind).collect();
        let mut at = self.from;
        for line in &own[..some(own.len()).min(own.len())] {
            let sheet = round_sheet::find(doing.read(), self.round, line.round_sheet_id).await?;
            at += 6 * MINUTE;
            self.mark_sheet(doing, sheet.ok_or(Error::Missing)?, at)
                .await?;
        }
        Ok(())
    }

    async fn mark_sheet(
        self,
        doing: &mut Doing<'_>,
        sheet: RoundSheet,
        at: i64,
    ) -> Result<(), Error> {
        let (round, id, revision) = (self.round, sheet.id, sheet.revision_id);
        let desk = second::load(doing.read(), sheet, self.marker.staff.id).await?;
        let on_desk = &desk.sheets[0];
        let mut eye = Eye::new(revision, self.marker.teacher.number(), self.temper);
        let answers = on_desk
            .work
            .as_ref()
            .map(|work| &work.revision.entry.answers);
        for (point, standing) in desk.points.iter().zip(&on_desk.marks.points) {
            let award = eye.award(&point.point, standing.suggestion.as_ref(), answers);
            let act = AwardSecond {
                round,
                sheet: id,
                key: point.key,
                marks: Some(i64::from(award.marks)),
                reason: award.reason.to_owned(),
            };
            done(doing.perform(at, self.marker.staff, act).await?)?;
        }
        Ok(())
    }
}
