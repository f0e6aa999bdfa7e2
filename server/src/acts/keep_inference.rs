//! What the readings of a class set suggest is kept.

use super::{Act, Anyone, Doing};
use crate::db::Error;
use crate::db::inference::{self, NewInference};

/// Keeps an inference in the place of the one before. Only a copy of what can
/// be made again.
#[derive(Debug)]
pub struct KeepInference(pub NewInference);

impl Act<Anyone> for KeepInference {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        inference::keep(doing.db, &self.0, doing.at).await
    }
}
