//! A point is marked again for a whole class, or all of the class.

use super::settle::{check_reason, open};
use super::{Act, Doing, Event, NotSettled, Staff, head};
use crate::db::settlement::{self, About, Kind, NewSettlement};
use crate::db::{Error, round};
use crate::ids::{ClassSetId, RoundId, SettlementId};
use crate::report::moderation::settling::newest;

/// Decides that a point is marked again for a class of a round, or takes that
/// back. For a head of department.
#[derive(Clone, Debug)]
pub struct MarkAgain {
    /// In which round.
    pub round: RoundId,
    /// For which class.
    pub class_set: ClassSetId,
    /// Key of the point; `None`: all of them.
    pub point: Option<i64>,
    /// Why: 1 to 800 characters.
    pub reason: String,
    /// The decision that is taken back, the newest on it; `None`: it is to be
    /// marked again.
    pub takes_back: Option<SettlementId>,
}

impl Act for MarkAgain {
    type By = Staff;
    type Done = Result<(), NotSettled>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Self::Done, Error> {
        head(by)?;
        let (round, settling) = match open(doing, by, self.round).await? {
            Err(refused) => return Ok(Err(refused)),
            Ok(found) => found,
        };
        let class_sets = round::list_class_sets(doing.db, round.id).await?;
        if !class_sets.iter().any(|set| set.id == self.class_set) {
            return Ok(Err(NotSettled::NoSuchClass));
        }
        let mut points = settling.points.values().flatten();
        if self.point.is_some_and(|key| !points.any(|p| p.key == key)) {
            return Ok(Err(NotSettled::NoSuchPoint));
        }
        if let Err(refused) = check_reason(&self.reason) {
            return Ok(Err(refused));
        }
        let about = About::Class(self.class_set);
        let stands = newest(&settling.settlements, about, self.point);
        if self.takes_back.is_some() && stands.map(|one| one.id) != self.takes_back {
            return Ok(Err(NotSettled::Met));
        }
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
        doing.record(by, &event).await?;
        Ok(Ok(()))
    }
}
