//! A group leaves its bench.

use super::{Act, Doing, Event};
use crate::db::{Error, visit};
use crate::ids::{ClassSetId, VisitId};

/// Ends a browser's visit to a bench: its number is asked for again.
#[derive(Debug)]
pub struct LeaveBench {
    /// The bench's class set.
    pub class_set: ClassSetId,
}

impl Act<VisitId> for LeaveBench {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: VisitId, doing: &mut Doing<'_>) -> Result<(), Error> {
        visit::leave(doing.db, by).await?;
        doing.record(by, &Event::Visited(self.class_set)).await
    }
}
