//! A moderation round is made.

use super::{Act, Doing, Event, NotDone, Staff, head, refuse_if};
use crate::db::round::{self, NewRound};
use crate::db::{Error, scheme, staff};
use crate::ids::{ClassSetId, RoundId, SchemeId, StaffId};

/// Makes a round about class sets that are marked with its scheme, or not
/// marked yet. For a head of department. Pressed twice, it makes one: it
/// returns the round that says the same and has not begun.
#[derive(Clone, Debug)]
pub struct MakeRound {
    /// 1 to 80 characters.
    pub name: String,
    /// With which scheme.
    pub scheme: SchemeId,
    /// How far two totals may be apart, in marks.
    pub tolerance_total: i64,
    /// How far two marks of one point may be apart.
    pub tolerance_point: i64,
    /// From which the sample is drawn: 1 to 40 characters.
    pub seed: String,
    /// About which class sets.
    pub class_sets: Vec<ClassSetId>,
    /// Who marks in it.
    pub markers: Vec<StaffId>,
}

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
        let schemes = scheme::list(doing.db).await?;
        if !schemes.iter().any(|scheme| scheme.id == self.scheme) {
            return Err(Error::NoSuch.into());
        }
        let possible = round::list_possible_class_sets(doing.db, self.scheme).await?;
        let is_possible = |id: &ClassSetId| possible.iter().any(|set| set.id == *id);
        let are_possible = self.class_sets.iter().all(is_possible);
        refuse_if(
            self.class_sets.is_empty() || !are_possible,
            NotMade::ClassSets,
        )?;
        let colleagues = staff::list(doing.db).await?;
        let is_colleague = |id: &StaffId| colleagues.iter().any(|one| one.id == *id);
        let are_colleagues = self.markers.iter().all(is_colleague);
        refuse_if(self.markers.is_empty() || !are_colleagues, NotMade::Markers)?;
        let new = NewRound {
            name: self.name,
            scheme_id: self.scheme,
            tolerance_total: self.tolerance_total,
            tolerance_point: self.tolerance_point,
            seed: self.seed,
            class_sets: self.class_sets,
            markers: self.markers,
            staff_id: by.id,
            made_at: doing.at,
        };
        if let Some(same) = round::find_same(doing.db, &new).await? {
            return Ok(same);
        }
        let id = round::insert(doing.db, &new).await?;
        doing
            .record(by, &Event::RoundMade(id, new.name, new.seed))
            .await?;
        Ok(id)
    }
}
