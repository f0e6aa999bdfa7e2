//! A register is kept.

use jiff::civil::Date;

use super::event::RegisterCounts;
use super::{Act, Doing, Event, NotDone, Staff, refuse_if};
use crate::db::register::{self, RegisterLine};
use crate::db::{Error, bench, department};
use crate::ids::ClassSetId;

/// Puts these lines in the place of a class set's register, unless somebody
/// changed it since it was read; without initials where none are kept.
#[derive(Debug)]
pub struct KeepRegister {
    pub class_set: ClassSetId,
    /// Its pupils.
    pub lines: Vec<RegisterLine>,
    /// The digest of the lines that were read.
    pub seen: String,
    /// The day, in the school's zone.
    pub today: Date,
}

/// Somebody else changed the register in between. Nothing was kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RegisterChanged;

impl Act<Staff> for KeepRegister {
    type Done = ();
    type Stop = NotDone<RegisterChanged>;

    async fn perform(mut self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let id = self.class_set;
        let benches = bench::list(doing.db, id).await?;
        let is_ours = |line: &RegisterLine| {
            let mut ids = benches.iter().map(|bench| bench.id);
            line.bench_id.is_none_or(|of| ids.any(|id| id == of))
        };
        if !self.lines.iter().all(is_ours) {
            return Err(Error::NoSuch.into());
        }
        if !department::get(doing.db)
            .await?
            .keeps_initials_on(self.today)
        {
            for line in &mut self.lines {
                line.initials.clear();
            }
        }
        let stored = register::list(doing.db, id).await?;
        if stored == self.lines {
            return Ok(());
        }
        refuse_if(register::digest(&stored)? != self.seen, RegisterChanged)?;
        register::keep(doing.db, id, &self.lines).await?;
        let kept = Event::RegisterKept(id, counts(&self.lines));
        Ok(doing.record(by, &kept).await?)
    }
}

fn counts(lines: &[RegisterLine]) -> RegisterCounts {
    let present = lines.iter().filter(|line| line.was_present).count();
    let caught_up = lines.iter().filter(|line| line.caught_up_on.is_some());
    RegisterCounts {
        absent: lines.len() - present,
        caught_up: caught_up.count(),
        present,
    }
}
