//! A mark scheme has a new version.

use super::{Act, Doing, Event, NotDone, Staff, refuse_if};
use crate::db::Error;
use crate::db::scheme::{self, MarkingPoint, NewPoint};
use crate::ids::SchemeId;

/// Saves these points as the next version of a scheme, unless somebody saved
/// one since they were read. Where they are those of the newest, nothing is
/// written.
#[derive(Debug)]
pub struct SaveScheme {
    pub scheme: SchemeId,
    /// The number of the version that was read.
    pub base: i64,
    /// Its points, in order. A key is one of the newest version, and is there
    /// once; any other is taken for that of a new point.
    pub points: Vec<NewPoint>,
}

/// Why nothing was saved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotSaved {
    /// A scheme has one point or more.
    NoPoints,
    /// Somebody saved a version in between.
    Met,
}

impl Act<Staff> for SaveScheme {
    type Done = ();
    type Stop = NotDone<NotSaved>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let newest = scheme::find(doing.db, self.scheme).await?;
        let newest = newest.ok_or(Error::NoSuch)?;
        let present = scheme::list_points(doing.db, newest.version_id).await?;
        refuse_if(self.points.is_empty(), NotSaved::NoPoints)?;
        let points = with_own_keys(self.points, &present);
        if is_same(&points, &present) {
            return Ok(());
        }
        refuse_if(newest.number != self.base, NotSaved::Met)?;
        let by_whom = Some(by.id);
        scheme::insert_version(doing.db, self.scheme, &points, by_whom, doing.at).await?;
        let saved = Event::SchemeSaved(newest.name, newest.number + 1);
        Ok(doing.record(by, &saved).await?)
    }
}

fn with_own_keys(points: Vec<NewPoint>, present: &[MarkingPoint]) -> Vec<NewPoint> {
    let mut free: Vec<i64> = present.iter().map(|point| point.key).collect();
    let own = points.into_iter().map(|mut point| {
        let at = free.iter().position(|key| Some(*key) == point.key);
        point.key = at.map(|at| free.swap_remove(at));
        point
    });
    own.collect()
}

fn is_same(new: &[NewPoint], present: &[MarkingPoint]) -> bool {
    let mut pairs = new.iter().zip(present);
    new.len() == present.len()
        && pairs.all(|(new, old)| new.key == Some(old.key) && new.point == old.point)
}
