//! The slips that the groups' own figures show, and who made them.

use analysis::slip::Slip;

use super::handed_in;
use crate::report::class_set::ClassReport;
use crate::words::Say;

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
