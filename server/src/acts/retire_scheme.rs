//! A mark scheme is no more offered, or is again.

use super::{Act, Doing, Event, NotDone, Staff, refuse_if};
use crate::db::{Error, scheme};
use crate::ids::SchemeId;

/// Offers a scheme no more for new class sets, or again. One of every method
/// stays.
#[derive(Debug)]
pub struct RetireScheme {
    pub scheme: SchemeId,
    /// No more, or again.
    pub is_retired: bool,
}

/// It is the only scheme that is offered for its method.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LastOfMethod;

impl Act<Staff> for RetireScheme {
    type Done = ();
    type Stop = NotDone<LastOfMethod>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let schemes = scheme::list(doing.db).await?;
        let scheme = schemes.iter().find(|scheme| scheme.id == self.scheme);
        let scheme = scheme.ok_or(Error::NoSuch)?;
        let mut others = schemes.iter().filter(|one| one.id != scheme.id);
        let has_other = others.any(|one| one.method == scheme.method && !one.is_retired);
        refuse_if(self.is_retired && !has_other, LastOfMethod)?;
        scheme::retire(doing.db, scheme.id, self.is_retired).await?;
        let done = Event::SchemeRetired(scheme.name.clone(), self.is_retired);
        Ok(doing.record(by, &done).await?)
    }
}
