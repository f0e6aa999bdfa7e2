//! A kit is listed.

use super::{Act, Doing, Event, Staff, Taken};
use crate::db::Error;
use crate::db::kit::{self, Kind};
use crate::ids::KitId;

/// Puts a kit on the list. No two have one label, in whatever letters.
#[derive(Debug)]
pub struct ListKit {
    /// What is written on it, at most 40 characters.
    pub label: String,
    /// What it is.
    pub kind: Kind,
}

impl Act for ListKit {
    type By = Staff;
    type Done = Result<KitId, Taken>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Self::Done, Error> {
        let Some(id) = kit::insert(doing.db, &self.label, self.kind).await? else {
            return Ok(Err(Taken));
        };
        doing.record(by, &Event::KitAdded(self.label)).await?;
        Ok(Ok(id))
    }
}
