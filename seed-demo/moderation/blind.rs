//! A marker at the sheets of a round, without anybody else's marks.

use server::clock::MINUTE;
use server::db::round_sheet::{self, Kind};
use server::db::second_mark::{self, NewSecondMark};
use server::db::{Error, Writing};
use server::ids::RoundId;
use server::report::moderation::second::{self, SecondSheet};

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
        db: &mut Writing,
        some: impl Fn(usize) -> usize,
    ) -> Result<(), Error> {
        let marker = self.marker.id;
        let own = round_sheet::list_progress(db, self.round, Some(marker)).await?;
        let own: Vec<_> = own.iter().filter(|line| line.kind == self.kind).collect();
        let mut at = self.from;
        for line in &own[..some(own.len()).min(own.len())] {
            let sheet = round_sheet::find(db, self.round, line.round_sheet_id).await?;
            let sheet = second::load(db, sheet.ok_or(Error::Stopped)?, marker).await?;
            at += 6 * MINUTE;
            for new in self.marks(&sheet, at) {
                second_mark::insert(db, &new).await?;
            }
        }
        Ok(())
    }

    fn marks(self, sheet: &SecondSheet, at: i64) -> Vec<NewSecondMark> {
        let teacher = self.marker.teacher.number();
        let mut eye = Eye::new(sheet.sheet.revision_id, teacher, self.temper);
        let answers = sheet.work.as_ref().map(|work| &work.revision.entry.answers);
        let points = sheet.points.iter();
        let marks = points.map(|point| {
            let award = eye.award(&point.point.point, point.suggestion.as_ref(), answers);
            NewSecondMark {
                round_sheet_id: sheet.sheet.id,
                marking_point_id: point.point.id,
                awarded: Some(i64::from(award.marks)),
                note: award.reason.to_owned(),
                staff_id: self.marker.id,
                marked_at: at,
            }
        });
        marks.collect()
    }
}
