//! Somebody says whether a slip is one.

use super::{Act, Doing, Event, NotDone, Staff, refuse_if};
use crate::db::decision::{self, FlagKey, NewDecision, Verdict};
use crate::db::{Error, bench, revision};
use crate::ids::{ClassSetId, RevisionId};

/// Longest reason, in characters.
const LONGEST_REASON: usize = 1000;

/// Confirms a slip, or dismisses it with a reason, on the newest revision of a
/// sheet. What a revision shows never changes, so that it shows this slip is
/// found out before, away from the writer.
#[derive(Clone, Debug)]
pub struct DecideSlip {
    /// The class set of the sheet.
    pub class_set: ClassSetId,
    /// Label of its bench.
    pub label: String,
    /// The revision that was on the screen.
    pub revision: RevisionId,
    pub flag: FlagKey,
    pub verdict: Verdict,
    /// Why; a dismissal needs it.
    pub reason: String,
}

/// Why nothing was decided.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotDecided {
    /// The group has stored something since.
    NotNewest,
    /// A dismissal without a reason.
    NoReason,
    /// The reason is longer than 1000 characters.
    LongReason,
}

impl Act<Staff> for DecideSlip {
    type Done = ();
    type Stop = NotDone<NotDecided>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let bench = bench::find(doing.db, self.class_set, &self.label).await?;
        let sheet_id = bench.ok_or(Error::NoSuch)?.sheet_id;
        let newest = revision::find_latest(doing.db, sheet_id).await?;
        let is_newest = newest.is_some_and(|newest| newest.id == self.revision);
        refuse_if(!is_newest, NotDecided::NotNewest)?;
        let needs_reason = self.verdict == Verdict::Dismissed;
        refuse_if(needs_reason && self.reason.is_empty(), NotDecided::NoReason)?;
        let is_long = self.reason.chars().count() > LONGEST_REASON;
        refuse_if(is_long, NotDecided::LongReason)?;
        let slip = self.flag.slip.clone();
        let new = NewDecision {
            sheet_id,
            revision_id: self.revision,
            flag: self.flag,
            verdict: self.verdict,
            reason: self.reason,
            staff_id: by.id,
            decided_at: doing.at,
        };
        decision::insert(doing.db, &new).await?;
        let event = Event::SlipDecided(self.class_set, self.verdict, slip);
        Ok(doing.record(by, &event).await?)
    }
}
