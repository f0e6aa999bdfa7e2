//! Something is written below the record of a closed round.

use super::{Act, Doing, Event, Staff, head};
use crate::db::{Error, moderation_record, round};
use crate::ids::RoundId;
use crate::report::moderation::may_see::is_blind;

/// Longest entry, in characters.
const LONGEST: usize = 2000;

/// Adds an entry to a record; what is there stays. For a head of department.
/// Pressed twice, it is kept once.
#[derive(Clone, Debug)]
pub struct EnterRecord {
    /// Of which round.
    pub round: RoundId,
    /// What was found or done.
    pub body: String,
}

/// Why nothing was entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotEntered {
    /// The round has no record.
    NoRecord,
    /// They mark sheets of its classes blind, in another round.
    Blind,
    /// Nothing is written.
    Blank,
    /// It is longer than 2000 characters.
    Long,
}

impl Act for EnterRecord {
    type By = Staff;
    type Done = Result<(), NotEntered>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Self::Done, Error> {
        head(by)?;
        if moderation_record::find(doing.db, self.round)
            .await?
            .is_none()
        {
            return Ok(Err(NotEntered::NoRecord));
        }
        let class_sets = round::list_class_sets(doing.db, self.round).await?;
        if is_blind(doing.db, by.id, class_sets.iter().map(|set| set.id)).await? {
            return Ok(Err(NotEntered::Blind));
        }
        match self.body.chars().count() {
            0 => return Ok(Err(NotEntered::Blank)),
            length if length > LONGEST => return Ok(Err(NotEntered::Long)),
            _ => {}
        }
        let entries = moderation_record::list_entries(doing.db, self.round).await?;
        if entries.last().is_some_and(|last| last.body == self.body) {
            return Ok(Ok(()));
        }
        let (body, at) = (self.body.as_str(), doing.at);
        moderation_record::insert_entry(doing.db, self.round, body, by.id, at).await?;
        doing.record(by, &Event::RecordEntry(self.round)).await?;
        Ok(Ok(()))
    }
}
