//! A point is marked again for a whole class, or all of the class.

use super::settle::{check_reason, open};
use super::{Act, Doing, Event, NotDone, NotSettled, Refused, Staff, head, refuse_if};
use crate::db::round;
use crate::db::settlement::{self, About, Kind, NewSettlement};
use crate::ids::{ClassSetId, RoundId, SettlementId};
use crate::report::moderation::settling::newest;

/// Decides that a point is marked again for a class of a round, or takes that
/// back. For a head of department.
#[derive(Clone, Debug)]
pub struct MarkAgain {
    pub round: RoundId,
    pub class_set: ClassSetId,
    /// Key of the point; `None`: all of them.
    pub point: Option<i64>,
    /// Why: 1 to 800 characters.
    pub reason: String,
    /// The decision that is taken back, the newest on it; `None`: it is to be
    /// marked again.
    pub takes_back: Option<SettlementId>,
}

impl Act<Staff> for MarkAgain {
    type Done = ();
    type Stop = NotDone<NotSettled>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        head(by)?;
        let (round, settling) = open(doing, by, self.round).await?;
        let class_sets = round::list_class_sets(doing.db, round.id).await?;
        let is_in_it = class_sets.iter().any(|set| set.id == self.class_set);
        refuse_if(!is_in_it, NotSettled::NoSuchClass)?;
        let mut points = settling.points.iter();
        let is_point = self.point.is_none_or(|key| points.any(|p| p.key == key));
        refuse_if(!is_point, NotSettled::NoSuchPoint)?;
        check_reason(&self.reason).map_err(Refused)?;
        let about = About::Class(self.class_set);
        let stands = newest(&settling.settlements, about, self.point);
        let is_met = self.takes_back.is_some() && stands.map(|one| one.id) != self.takes_back;
        refuse_if(is_met, NotSettled::Met)?;
        let new = NewSettlement {
            round_id: round.id,
            about,
            point_key: self.point,
            kind: match self.takes_back {
                Some(_) => Kind::NotAgain,
                None => Kind::Again,
            },
            agreed: None,
            reason: self.reason,
            staff_id: by.id,
            at: doing.at,
        };
        let id = settlement::insert(doing.db, &new).await?;
        let event = Event::Settled(round.id, id, Some(self.class_set));
        Ok(doing.record(by, &event).await?)
    }
}
