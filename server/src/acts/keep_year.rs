//! A year's comparison is kept.

use super::{Act, Anyone, Doing};
use crate::db::Error;
use crate::db::year::{self, NewSummary};

/// Keeps a year's comparison in the place of the one before. Only a copy of
/// what can be made again.
#[derive(Debug)]
pub struct KeepYear(pub NewSummary);

impl Act<Anyone> for KeepYear {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        year::keep_summary(doing.db, &self.0, doing.at).await
    }
}
