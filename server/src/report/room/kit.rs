//! The kits in use, and whether what is odd there is one group's or the kit's.

use std::collections::BTreeMap;

use analysis::room::Stage;
use analysis::text::folded;

use super::KitFault;
use super::bench::{BenchInRoom, Own};
use super::pointer::{Pointer, of_kit};
use crate::words::room as words;

/// A kit in use.
#[derive(Debug)]
pub struct KitInRoom {
    /// Blank for the groups that named none.
    pub kit: String,
    /// The benches that work with it.
    pub labels: Vec<String>,
    /// What may be wrong with it.
    pub faults: Vec<Pointer>,
    /// Whose that is, a sentence each; none where nothing is odd.
    pub verdicts: Vec<String>,
}

impl KitInRoom {
    /// Says whether nothing there is odd.
    #[must_use]
    pub fn is_as_it_should_be(&self) -> bool {
        self.faults.is_empty() && self.verdicts.is_empty()
    }
}

/// Returns the kits of the benches that have begun.
pub(super) fn kits(benches: &[BenchInRoom], faults: &[KitFault]) -> Vec<KitInRoom> {
    let mut users: BTreeMap<String, Vec<&BenchInRoom>> = BTreeMap::new();
    for bench in benches.iter().filter(|b| is_in_use(b)) {
        users.entry(folded(&bench.kit)).or_default().push(bench);
    }
    // Blank is the first of all names.
    let unnamed = users.remove("");
    let all = users.into_values().chain(unnamed);
    all.map(|users| of_users(&users, faults)).collect()
}

/// Until something is stored, nobody knows which kit a bench works with.
fn is_in_use(bench: &BenchInRoom) -> bool {
    matches!(bench.stage, Stage::Saved | Stage::HandedIn)
}

fn of_users(users: &[&BenchInRoom], faults: &[KitFault]) -> KitInRoom {
    // As the first of them wrote it.
    let kit = users.first().map_or("", |bench| &bench.kit);
    let is_its = |fault: &&KitFault| folded(&fault.kit) == folded(kit);
    let faults: Vec<_> = faults.iter().filter(is_its).collect();
    let with = |own| {
        let users = users.iter().filter(move |bench| bench.own == Some(own));
        labels(users.copied())
    };
    let mut verdicts = Vec::new();
    if !faults.is_empty() {
        let mut users: Vec<_> = faults.iter().flat_map(|fault| &fault.labels).collect();
        users.sort();
        users.dedup();
        verdicts.push(words::kits_own(!kit.is_empty(), &users));
    }
    let either = with(Own::Either);
    if !either.is_empty() {
        verdicts.push(words::either(&either));
    }
    let own = with(Own::Group);
    if !own.is_empty() {
        let others = users.iter().filter(|b| b.own.is_none() && !kit.is_empty());
        verdicts.push(words::groups_own(&own, &labels(others.copied())));
    }
    KitInRoom {
        kit: kit.to_owned(),
        labels: labels(users.iter().copied()),
        faults: faults.into_iter().map(pointer).collect(),
        verdicts,
    }
}

/// Returns the fault; of a kit without a name, with the bench that it is at.
fn pointer(fault: &KitFault) -> Pointer {
    let pointer = of_kit(fault);
    match (fault.kit.as_str(), fault.labels.as_slice()) {
        ("", [label]) => Pointer {
            what: words::at_bench(label, &pointer.what),
            ..pointer
        },
        _ => pointer,
    }
}

fn labels<'b>(benches: impl Iterator<Item = &'b BenchInRoom>) -> Vec<String> {
    benches.map(|bench| bench.bench.label.clone()).collect()
}
