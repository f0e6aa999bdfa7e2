//! Something that seems wrong at a bench, how sure that is, and what to ask.

use analysis::reading::Cause;
use analysis::slip::Kind;

use super::KitFault;
use crate::report::Work;
use crate::report::class_set::{ClassReport, GroupReport};
use crate::report::finding::{self, FindingLine};
use crate::report::flag;
use crate::words::Say;
use crate::words::room::{SHOWN, inferred};

/// Something that seems wrong at a bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pointer {
    /// Whether the group's own figures show it; else it is inferred.
    pub is_shown: bool,
    /// Where and what: `wavelength, every row: enlargement left out`.
    pub what: String,
    /// How sure: `shown by their figures`, `inferred, 92 %`.
    pub how_sure: String,
    /// What to ask or to check; two where it may be one of two.
    pub lines: Vec<PointerLine>,
}

/// A line to say at the bench, or a thing to check there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PointerLine {
    /// Whether the teacher is to check the kit; else the group is asked.
    pub is_check: bool,
    pub text: &'static str,
}

impl PointerLine {
    fn of(cause: Cause) -> Self {
        Self {
            is_check: cause.kind() == Kind::Apparatus,
            text: crate::words::cause::ask(cause),
        }
    }
}

impl Pointer {
    pub(super) fn of_finding(finding: &FindingLine) -> Self {
        Self {
            is_shown: false,
            what: finding.headline(),
            how_sure: inferred(&finding.probability, finding.decision.is_some()),
            lines: lines(finding.causes()),
        }
    }
}

fn lines((cause, twin): (Cause, Option<Cause>)) -> Vec<PointerLine> {
    [Some(cause), twin]
        .into_iter()
        .flatten()
        .map(PointerLine::of)
        .collect()
}

/// Lists what the readings of a group suggest of the group itself and is worth
/// a visit, most probable first.
pub(super) fn of_readings(report: &ClassReport, group: &GroupReport) -> Vec<FindingLine> {
    let mut findings = finding::of_group(report, group);
    findings.retain(|line| !line.is_dismissed() && report.class_set.is_for_bench(line.share));
    findings
}

pub(super) fn of_kit(fault: &KitFault) -> Pointer {
    Pointer {
        is_shown: false,
        what: fault.what.clone(),
        how_sure: inferred(&fault.probability, fault.is_confirmed),
        lines: lines(fault.causes),
    }
}

/// Returns the slips that the working shows, in the order of the work: each
/// once, where it was made first.
pub(super) fn of_working(work: &Work) -> Vec<Pointer> {
    let mut named = Vec::new();
    let mut shown = flag::lines(Say::english(), work, Kind::Slip);
    shown.retain(|line| {
        let is_new = !line.is_dismissed() && !named.contains(&line.slip);
        named.push(line.slip);
        is_new
    });
    let pointers = shown.into_iter().map(|line| Pointer {
        is_shown: true,
        what: line.headline(),
        how_sure: SHOWN.to_owned(),
        lines: vec![PointerLine {
            is_check: false,
            text: Say::english().slip_ask(line.slip),
        }],
    });
    pointers.collect()
}
