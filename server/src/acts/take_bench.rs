//! A group takes a bench.

use super::{Act, Anyone, Doing, Event, NotDone, refuse_if};
use crate::db::{Error, bench, class_set, visit};
use crate::ids::{ClassSetId, VisitId};

/// Takes a bench that nobody has taken yet, while the class set is open: the
/// bench gets its come-back number, and the browser its visit.
#[derive(Debug)]
pub struct TakeBench {
    /// The bench's class set.
    pub class_set: ClassSetId,
    pub label: String,
    /// Argon2id of the number.
    pub number_hash: String,
    /// SHA-256 of the browser's token.
    pub token_hash: String,
}

/// Why a bench cannot be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotTaken {
    /// It has its number already: somebody else was first.
    HasNumber,
    /// The class set is closed.
    Closed,
}

impl Act<Anyone> for TakeBench {
    type Done = VisitId;
    type Stop = NotDone<NotTaken>;

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<VisitId, Self::Stop> {
        let class_set = class_set::get(doing.db, self.class_set).await?;
        let bench = bench::find(doing.db, self.class_set, &self.label).await?;
        let bench = bench.ok_or(Error::NoSuch)?;
        refuse_if(bench.come_back_hash.is_some(), NotTaken::HasNumber)?;
        refuse_if(!class_set.is_open(), NotTaken::Closed)?;
        bench::set_number(doing.db, bench.id, &self.number_hash).await?;
        let visit = visit::insert(doing.db, &self.token_hash, bench.id, doing.at).await?;
        doing.record(by, &Event::Visited(self.class_set)).await?;
        Ok(visit)
    }
}
