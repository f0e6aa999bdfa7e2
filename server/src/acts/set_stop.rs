//! When measuring stops.

use super::{Act, Doing, Event, NotDone, Staff, refuse_if};
use crate::db::class_set;
use crate::ids::ClassSetId;

/// Says when measuring stops, or takes it back: a time to come, on a class set
/// whose live pages are on.
#[derive(Debug)]
pub struct SetStop {
    pub class_set: ClassSetId,
    /// Unix ms; `None` takes it back.
    pub stops_at: Option<i64>,
}

/// Why the time cannot be set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoStop {
    /// The live pages are off.
    NotLive,
    /// That time has passed.
    Passed,
}

impl Act<Staff> for SetStop {
    type Done = ();
    type Stop = NotDone<NoStop>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let class_set = class_set::get(doing.db, self.class_set).await?;
        refuse_if(!class_set.is_live, NoStop::NotLive)?;
        let has_passed = self.stops_at.is_some_and(|at| at <= doing.at);
        refuse_if(has_passed, NoStop::Passed)?;
        class_set::set_stop(doing.db, self.class_set, self.stops_at).await?;
        Ok(doing.record(by, &Event::StopSet(self.class_set)).await?)
    }
}
