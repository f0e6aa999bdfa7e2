//! A kit is listed.

use super::{Act, Doing, Event, NotDone, Refused, Staff, Taken};
use crate::db::kit::{self, Kind};
use crate::ids::KitId;

/// Puts a kit on the list. No two have one label, in whatever letters.
#[derive(Debug)]
pub struct ListKit {
    /// What is written on it, at most 40 characters.
    pub label: String,
    pub kind: Kind,
}

impl Act<Staff> for ListKit {
    type Done = KitId;
    type Stop = NotDone<Taken>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<KitId, Self::Stop> {
        let id = kit::insert(doing.db, &self.label, self.kind).await?;
        let id = id.ok_or(Refused(Taken))?;
        doing.record(by, &Event::KitAdded(self.label)).await?;
        Ok(id)
    }
}
