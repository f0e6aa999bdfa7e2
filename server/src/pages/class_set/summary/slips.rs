//! The slips that the groups' own figures show, and what their readings suggest:
//! who made them, and the benches worth a visit.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use analysis::slip::Slip;

use super::handed_in;
use crate::report::class_set::ClassReport;
use crate::report::finding::{FindingLine, of_group};
use crate::report::kit;
use crate::report::kits::Causes;
use crate::words::{Say, capitalised, cause, finding};

/// A slip and who made it.
pub(super) struct SlipLine {
    pub(super) sentence: &'static str,
    pub(super) groups: usize,
    pub(super) labels: Vec<String>,
}

pub(super) fn slip_lines(report: &ClassReport) -> Vec<SlipLine> {
    report
        .summary
        .slips
        .iter()
        .filter(|count| count.slip != Slip::DoesNotFollow)
        .map(|count| SlipLine {
            sentence: Say::english().slip_sentence(count.slip),
            groups: count.groups,
            labels: makers(report, count.slip),
        })
        .collect()
}

/// Labels of the groups that made a slip, as far as nobody dismissed it.
pub(super) fn makers(report: &ClassReport, slip: Slip) -> Vec<String> {
    handed_in(report)
        .filter(|(_, work, _)| work.upholds(slip))
        .map(|(group, ..)| group.bench.label.clone())
        .collect()
}

/// A bench worth a visit.
pub(super) struct Visit {
    pub(super) label: String,
    pub(super) kit: String,
    /// Most probable first.
    pub(super) findings: Vec<FindingLine>,
}

/// A slip at the bench and the groups that probably made it.
pub(super) struct SuggestedSlip {
    pub(super) sentence: String,
    pub(super) labels: Vec<String>,
}

/// Returns the benches worth a visit, the one with the most probable slip
/// first.
pub(super) fn visits(report: &ClassReport) -> Vec<Visit> {
    let visits = report.groups.iter().map(|group| {
        let mut findings = of_group(report, group);
        findings.retain(|line| !line.is_dismissed() && report.class_set.is_for_bench(line.share));
        Visit {
            label: group.bench.label.clone(),
            kit: kit(&group.bench, group.work.as_ref()).to_owned(),
            findings,
        }
    });
    let mut visits: Vec<_> = visits.filter(|visit| !visit.findings.is_empty()).collect();
    visits.sort_by(|one, other| other.most_probable().total_cmp(&one.most_probable()));
    visits
}

impl Visit {
    fn most_probable(&self) -> f64 {
        self.findings.first().map_or(0.0, |line| line.share)
    }
}

/// Slips at the bench by the number of groups that have handed in and
/// probably made them, commonest first.
pub(super) fn suggested_slips(report: &ClassReport) -> Vec<SuggestedSlip> {
    let mut makers: BTreeMap<Causes, Vec<String>> = BTreeMap::new();
    for group in report.groups.iter().filter(|g| g.standing.is_some()) {
        for line in of_group(report, group) {
            let labels = makers.entry(line.causes()).or_default();
            if !line.is_dismissed() && labels.last() != Some(&group.bench.label) {
                labels.push(group.bench.label.clone());
            }
        }
    }
    makers.retain(|_, labels| !labels.is_empty());
    let mut slips: Vec<_> = makers
        .into_iter()
        .map(|(causes, labels)| SuggestedSlip {
            sentence: either(causes),
            labels,
        })
        .collect();
    slips.sort_by_key(|slip| Reverse(slip.labels.len()));
    slips
}

/// Returns a cause, or both of two, as a sentence of its own.
fn either((cause, twin): Causes) -> String {
    let cause = cause::short(cause);
    match twin {
        None => capitalised(cause),
        Some(twin) => capitalised(&finding::either(cause, cause::short(twin))),
    }
}
