//! A teacher was at a bench.

use super::{Act, Doing, Event, NotDone, Refused, Staff, refuse_if};
use crate::db::{bench, class_set, seen};
use crate::ids::ClassSetId;

/// Ticks a bench as seen, or takes the tick away, while the live pages are on.
#[derive(Debug)]
pub struct TickBench {
    /// The bench's class set.
    pub class_set: ClassSetId,
    pub label: String,
    /// Version of its sheet that was on the screen: what was stored meanwhile
    /// has not been seen. `None`: the present one.
    pub version: Option<i64>,
    /// Whether it was seen.
    pub is_seen: bool,
}

/// Why nothing was ticked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotTicked {
    NoSuchBench,
    /// The live pages are off.
    NotLive,
}

impl Act<Staff> for TickBench {
    type Done = ();
    type Stop = NotDone<NotTicked>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let class_set = class_set::get(doing.db, self.class_set).await?;
        let bench = bench::find(doing.db, self.class_set, &self.label).await?;
        let bench = bench.ok_or(Refused(NotTicked::NoSuchBench))?;
        refuse_if(!class_set.is_live, NotTicked::NotLive)?;
        if self.is_seen {
            let version = self.version.unwrap_or(bench.version);
            seen::tick(doing.db, bench.id, version, by.id, doing.at).await?;
        } else {
            seen::take_away(doing.db, bench.id).await?;
        }
        Ok(doing.record(by, &Event::BenchSeen(self.class_set)).await?)
    }
}
