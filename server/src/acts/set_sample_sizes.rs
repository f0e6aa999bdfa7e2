//! The department's table of sample sizes.

use super::{Act, Doing, Event, Staff, head};
use crate::db::Error;
use crate::db::sample_size::{self, SampleSize};

/// Puts another table in the place of the one that there is. For a head of
/// department.
#[derive(Clone, Debug)]
pub struct SetSampleSizes {
    /// Smallest cohorts first.
    pub table: Vec<SampleSize>,
}

impl Act<Staff> for SetSampleSizes {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        head(by)?;
        sample_size::replace(doing.db, &self.table).await?;
        let lines = self
            .table
            .iter()
            .map(|line| (line.up_to, line.size))
            .collect();
        doing.record(by, &Event::SampleSizesSet(lines)).await
    }
}
