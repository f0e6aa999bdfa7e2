//! Judgements of sheets are kept.

use super::{Act, Anyone, Doing};
use crate::db::Error;
use crate::db::judgement::{self, Judged};
use crate::ids::RevisionId;

/// Keeps judgements, each in the place of the one before. Only copies of what
/// can be made again.
#[derive(Debug)]
pub struct KeepJudgements {
    /// The version of the analysis that made them.
    pub version: String,
    /// What it says of which revisions.
    pub judged: Vec<(RevisionId, Judged)>,
}

impl Act<Anyone> for KeepJudgements {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        judgement::keep(doing.db, &self.version, &self.judged).await
    }
}
