//! A moderation round is made.

use super::{Act, Doing, Event, NotDone, Staff, head, refuse_if};
use crate::db::round::{self, NewRound};
use crate::db::{Error, scheme, staff};
use crate::ids::{ClassSetId, RoundId, StaffId};

/// Makes a round about class sets that are marked with its scheme, or not
/// marked yet. For a head of department. Pressed twice, it makes one: it
/// returns the round that says the same and has not begun.
#[derive(Clone, Debug)]
pub struct MakeRound(pub NewRound);

/// Why a round cannot be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotMade {
    /// No class set is chosen, or one that is marked with another scheme.
    ClassSets,
    /// No marker is chosen, or somebody who is none of the staff.
    Markers,
}

impl Act<Staff> for MakeRound {
    type Done = RoundId;
    type Stop = NotDone<NotMade>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<RoundId, Self::Stop> {
        head(by)?;
        let new = self.0;
        let schemes = scheme::list(doing.db).await?;
        if !schemes.iter().any(|scheme| scheme.id == new.scheme) {
            return Err(Error::NoSuch.into());
        }
        let possible = round::list_possible_class_sets(doing.db, new.scheme).await?;
        let is_possible = |id: &ClassSetId| possible.iter().any(|set| set.id == *id);
        let are_possible = new.class_sets.iter().all(is_possible);
        let is_none = new.class_sets.is_empty();
        refuse_if(is_none || !are_possible, NotMade::ClassSets)?;
        let colleagues = staff::list(doing.db).await?;
        let is_colleague = |id: &StaffId| colleagues.iter().any(|one| one.id == *id);
        let are_colleagues = new.markers.iter().all(is_colleague);
        refuse_if(new.markers.is_empty() || !are_colleagues, NotMade::Markers)?;
        if let Some(same) = round::find_same(doing.db, &new, by.id).await? {
            return Ok(same);
        }
        let id = round::insert(doing.db, &new, by.id, doing.at).await?;
        let event = Event::RoundMade(id);
        doing.record(by, &event).await?;
        Ok(id)
    }
}
