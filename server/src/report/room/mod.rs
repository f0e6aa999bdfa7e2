//! A lesson as the teacher sees it: the benches by who needs a visit most,
//! with what to ask there, and the kits in use.

mod bench;
mod kit;
mod pointer;

use std::collections::HashMap;

use analysis::room::order;

use super::class_set::{self, ClassReport};
use super::kits::{self, KitFault};
use crate::db::bench::Bench;
use crate::db::class_set::ClassSet;
use crate::db::derived::Derived;
use crate::db::seen::{self, Seen};
use crate::db::visit::{self, Came};
use crate::db::{Connection, Error};
use crate::ids::ClassSetId;

pub use bench::{BenchInRoom, changed_at, heard_at, stage};
pub use kit::KitInRoom;
pub use pointer::{Pointer, PointerLine};

/// A lesson.
#[derive(Debug)]
pub struct Room {
    pub class_set: ClassSet,
    /// Its benches, the one that needs a visit most first.
    pub benches: Vec<BenchInRoom>,
    /// Its kits, by label; the groups that named none come last.
    pub kits: Vec<KitInRoom>,
    /// What the readings suggest, where it had to be made again, to be kept.
    pub to_keep: Option<Derived>,
}

/// Loads and judges a lesson as it stands at `now` (Unix ms): one query a
/// table, whatever the number of benches.
///
/// # Errors
/// When a query fails, or there is no such class set.
pub async fn load(db: &mut Connection, id: ClassSetId, now: i64) -> Result<Room, Error> {
    let report = class_set::load(db, id).await?;
    let came = visit::list_came(db, id).await?;
    let seen = seen::list(db, id).await?;
    Ok(room(report, &came, seen, now))
}

fn room(report: ClassReport, came: &[Came], seen: Vec<Seen>, now: i64) -> Room {
    let mut faults = kits::faults(&report);
    faults.retain(|fault| fault.is_for_bench);
    let mut seen: HashMap<_, _> = seen.into_iter().map(|s| (s.bench_id, s)).collect();
    let benches = report.groups.iter().map(|group| {
        let came = came.iter().find(|came| came.bench_id == group.bench.id);
        let seen = seen.remove(&group.bench.id);
        BenchInRoom::of(&report, group, came, seen, &faults)
    });
    let mut benches: Vec<_> = benches.collect();
    let standing: Vec<_> = benches.iter().map(BenchInRoom::standing).collect();
    let places = order(&standing, now, report.class_set.is_open());
    let kits = kit::kits(&benches, &faults);
    for (place, (at, need)) in places.into_iter().enumerate() {
        (benches[at].place, benches[at].need) = (place, need);
    }
    benches.sort_by_key(|bench| bench.place);
    Room {
        class_set: report.class_set,
        benches,
        kits,
        to_keep: report.to_keep,
    }
}
