//! What was made when somebody looked, and is kept for whoever looks next.
//!
//! All of it is a copy of what can be made again, and is found again under a
//! digest, or under the version of the analysis that made it.

use super::inference::{self, NewInference};
use super::judgement::{self, RevisionJudged};
use super::year::{self, NewSummary};
use super::{Error, Writing};
use crate::ids::RevisionId;

/// Something to keep, in the place of the one before.
#[derive(Clone, Debug)]
pub enum Derived {
    /// What the readings of a class set suggest.
    Inference(NewInference),
    /// What some revisions say.
    Judgements {
        /// The version of the analysis that says it.
        version: String,
        /// Of which revision it says what.
        judged: Vec<(RevisionId, RevisionJudged)>,
    },
    /// A year's comparison.
    Year(NewSummary),
}

pub async fn keep(db: &mut Writing, made: &Derived, made_at: i64) -> Result<(), Error> {
    match made {
        Derived::Inference(new) => inference::keep(db, new, made_at).await,
        Derived::Judgements { version, judged } => judgement::keep(db, version, judged).await,
        Derived::Year(new) => year::keep_summary(db, new, made_at).await,
    }
}
