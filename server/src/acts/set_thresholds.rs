//! From when on something that the readings suggest is told.

use super::{Act, Doing, Event, Staff};
use crate::db::{Error, class_set};
use crate::ids::ClassSetId;

/// Sets from how many per cent on findings are told. The summary tells at least
/// what the bench is told.
#[derive(Debug)]
pub struct SetThresholds {
    pub class_set: ClassSetId,
    /// At the bench: 50 to 99.
    pub bench: i64,
    /// In the summary: 5 to 99, and no more than at the bench.
    pub summary: i64,
}

impl Act<Staff> for SetThresholds {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        let (class_set, bench, summary) = (self.class_set, self.bench, self.summary);
        // The table itself refuses what is out of range.
        class_set::set_thresholds(doing.db, class_set, bench, summary).await?;
        let event = Event::ThresholdsSet(class_set, bench, summary);
        doing.record(by, &event).await
    }
}
