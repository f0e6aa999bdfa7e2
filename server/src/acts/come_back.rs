//! A group comes back to its bench.

use super::{Act, Anyone, Doing, Event};
use crate::db::{Error, bench, visit};
use crate::ids::{ClassSetId, VisitId};

/// Starts a browser's visit to a bench whose number it has given. Returns
/// `None` when the bench has another number by now.
#[derive(Debug)]
pub struct ComeBack {
    /// The bench's class set.
    pub class_set: ClassSetId,
    /// Label of the bench.
    pub label: String,
    /// Argon2id that the number was found right against.
    pub number_hash: String,
    /// SHA-256 of the browser's token.
    pub token_hash: String,
}

impl Act<Anyone> for ComeBack {
    type Done = Option<VisitId>;
    type Stop = Error;

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<Option<VisitId>, Error> {
        let bench = bench::find(doing.db, self.class_set, &self.label).await?;
        let bench = bench.ok_or(Error::NoSuch)?;
        if bench.come_back_hash != Some(self.number_hash) {
            return Ok(None);
        }
        let visit = visit::insert(doing.db, &self.token_hash, bench.id, doing.at).await?;
        doing.record(by, &Event::Visited(self.class_set)).await?;
        Ok(Some(visit))
    }
}
