//! Something is written below the record of a closed round.

use super::{Act, Doing, Event, NotDone, Staff, head, refuse_if};
use crate::db::{moderation_record, round};
use crate::ids::RoundId;
use crate::report::moderation::may_see::is_blind;

/// Longest entry, in characters.
const LONGEST: usize = 2000;

/// Adds an entry to a record; what is there stays. For a head of department.
/// Pressed twice, it is kept once.
#[derive(Clone, Debug)]
pub struct EnterRecord {
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

impl Act<Staff> for EnterRecord {
    type Done = ();
    type Stop = NotDone<NotEntered>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        head(by)?;
        let record = moderation_record::find(doing.db, self.round).await?;
        refuse_if(record.is_none(), NotEntered::NoRecord)?;
        let class_sets = round::list_class_sets(doing.db, self.round).await?;
        let is_blind = is_blind(doing.db, by.id, class_sets.iter().map(|set| set.id)).await?;
        refuse_if(is_blind, NotEntered::Blind)?;
        let length = self.body.chars().count();
        refuse_if(length == 0, NotEntered::Blank)?;
        refuse_if(length > LONGEST, NotEntered::Long)?;
        let entries = moderation_record::list_entries(doing.db, self.round).await?;
        if entries.last().is_some_and(|last| last.body == self.body) {
            return Ok(());
        }
        let (body, at) = (self.body.as_str(), doing.at);
        moderation_record::insert_entry(doing.db, self.round, body, by.id, at).await?;
        Ok(doing.record(by, &Event::RecordEntry(self.round)).await?)
    }
}
