//! When measuring stops.

use super::{Act, Doing, Event, Staff};
use crate::db::{Error, class_set};
use crate::ids::ClassSetId;

/// Says when measuring stops, or takes it back: a time to come, on a class set
/// whose live pages are on.
#[derive(Debug)]
pub struct SetStop {
    /// On which class set.
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

impl Act for SetStop {
    type By = Staff;
    type Done = Result<(), NoStop>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Self::Done, Error> {
        let class_set = class_set::get(doing.db, self.class_set).await?;
        if !class_set.is_live {
            return Ok(Err(NoStop::NotLive));
        }
        if self.stops_at.is_some_and(|at| at <= doing.at) {
            return Ok(Err(NoStop::Passed));
        }
        class_set::set_stop(doing.db, self.class_set, self.stops_at).await?;
        doing.record(by, &Event::StopSet(self.class_set)).await?;
        Ok(Ok(()))
    }
}
