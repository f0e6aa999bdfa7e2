//! A bench gets a new come-back number.

use super::{Act, Doing, Event, NotDone, Staff, refuse_if};
use crate::db::{Error, bench, visit};
use crate::ids::ClassSetId;

/// Gives a bench a new number in place of the old one, for a group that has
/// lost it. Every browser there must give the new one: somebody who does not
/// belong there may hold the old.
#[derive(Debug)]
pub struct RenewNumber {
    /// The bench's class set.
    pub class_set: ClassSetId,
    /// Label of the bench.
    pub label: String,
    /// Argon2id of the new number.
    pub number_hash: String,
}

/// The bench has no number yet, so there is none to lose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoNumberYet;

impl Act<Staff> for RenewNumber {
    type Done = ();
    type Stop = NotDone<NoNumberYet>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let bench = bench::find(doing.db, self.class_set, &self.label).await?;
        let bench = bench.ok_or(Error::NoSuch)?;
        refuse_if(bench.come_back_hash.is_none(), NoNumberYet)?;
        bench::set_number(doing.db, bench.id, &self.number_hash).await?;
        visit::leave_all(doing.db, bench.id).await?;
        let event = Event::NumberRenewed(self.class_set, self.label);
        Ok(doing.record(by, &event).await?)
    }
}
