//! A bench in the lesson.

use analysis::room::{self, Need, Stage};

use super::pointer::{Pointer, of_kit, of_readings, of_working};
use super::{Bench, Came, KitFault, Seen};
use crate::report::class_set::{ClassReport, GroupReport};
use crate::report::kit;

/// Most that a tile points to; the rest is on the sheet.
const MOST_POINTERS: usize = 3;

/// A bench as the room page shows it.
#[derive(Debug)]
pub struct BenchInRoom {
    pub bench: Bench,
    /// What its group calls its kit; blank where it named none.
    pub kit: String,
    /// How far it has come.
    pub stage: Stage,
    /// When it was last heard of, Unix ms: its sheet stored or a browser
    /// come; `None` where it never was, or its browsers have left.
    pub heard_at: Option<i64>,
    /// Why it stands where it does.
    pub need: Need,
    /// Its place among the benches, from 0.
    pub place: usize,
    /// What seems wrong, with what to ask; the most pressing first.
    pub pointers: Vec<Pointer>,
    /// How many more there are.
    pub more: usize,
    /// The teacher's tick, if there is one.
    pub seen: Option<Seen>,
    /// Whether its readings suggest a slip of the group, or one that may be
    /// the kit's as well.
    pub(super) own: Option<Own>,
    began_at: Option<i64>,
    reading: Option<f64>,
    kit_fault: Option<f64>,
    has_slip: bool,
}

/// Whose the slip is that the readings of a group suggest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Own {
    /// The group's.
    Group,
    /// The group's or the kit's: the readings cannot tell.
    Either,
}

/// Says how far a bench has come.
#[must_use]
pub fn stage(bench: &Bench) -> Stage {
    if bench.handed_in_at.is_some() {
        Stage::HandedIn
    } else if bench.saved_at.is_some() {
        Stage::Saved
    } else if bench.come_back_hash.is_some() {
        Stage::Writing
    } else {
        Stage::NotBegun
    }
}

/// Returns when the sheet of a bench was last stored, Unix ms. Returns `None`
/// when nothing is.
#[must_use]
pub fn changed_at(bench: &Bench) -> Option<i64> {
    bench.handed_in_at.max(bench.saved_at)
}

/// Returns when a bench was last heard of, Unix ms: its sheet stored or a
/// browser come. Returns `None` when it never was, or its browsers have left.
#[must_use]
pub fn heard_at(bench: &Bench, came: Option<&Came>) -> Option<i64> {
    changed_at(bench).max(came.map(|came| came.last))
}

impl BenchInRoom {
    pub(super) fn of(
        report: &ClassReport,
        group: &GroupReport,
        came: Option<&Came>,
        seen: Option<Seen>,
        faults: &[KitFault],
    ) -> Self {
        let bench = group.bench.clone();
        let findings = of_readings(report, group);
        let faults = faults.iter().filter(|f| f.labels.contains(&bench.label));
        let faults: Vec<_> = faults.collect();
        let working = group.work.as_ref().map(of_working).unwrap_or_default();
        let own = findings.iter().map(|f| f.is_either()).min();
        let (reading, kit_fault) = (
            findings.first().map(|finding| finding.share),
            faults.first().map(|fault| fault.share),
        );
        let has_slip = !working.is_empty();
        let readings = findings.iter().map(Pointer::of_finding);
        let mut pointers: Vec<_> = readings
            .chain(faults.into_iter().map(of_kit))
            .chain(working)
            .collect();
        let more = pointers.len().saturating_sub(MOST_POINTERS);
        pointers.truncate(MOST_POINTERS);
        Self {
            kit: kit(&bench, group.work.as_ref()).to_owned(),
            stage: stage(&bench),
            heard_at: heard_at(&bench, came),
            began_at: [
                came.map(|came| came.first),
                bench.handed_in_at,
                bench.saved_at,
            ]
            .into_iter()
            .flatten()
            .min(),
            need: Need::Nothing,
            place: 0,
            pointers,
            more,
            seen,
            own: own.map(|is_either| if is_either { Own::Either } else { Own::Group }),
            reading,
            kit_fault,
            has_slip,
            bench,
        }
    }

    /// Says whether somebody was there and the sheet has not changed since.
    #[must_use]
    pub fn was_seen(&self) -> bool {
        let mut seen = self.seen.iter();
        seen.any(|seen| seen.version == self.bench.version)
    }

    /// Returns what its place in the order rests on.
    pub(super) fn standing(&self) -> room::Bench {
        room::Bench {
            stage: self.stage,
            began: self.began_at,
            heard: self.heard_at,
            reading: self.reading,
            kit: self.kit_fault,
            has_slip: self.has_slip,
            was_seen: self.was_seen(),
        }
    }
}
