//! The class as a whole: its mean and spread, its kits, its graph.

use analysis::class_set::{by_kit, common_expectation};
use analysis::sheet::Sheet;

use super::handed_in;
use crate::chart::{Graph, GroupPoints, class_graph};
use crate::report::class_set::ClassReport;
use crate::report::kit;
use crate::table::{PageTable, Table};
use crate::words::number::{against, fixed, percent, speed_range};

/// What the class as a whole shows.
pub(super) struct ClassLine {
    /// `0.251 m/s, 95 % interval …`; `None` where the groups' apparatus
    /// differed, so that a mean of speeds would mean nothing.
    pub(super) mean: Option<String>,
    /// Groups in the mean.
    pub(super) counted: usize,
    pub(super) sd: Option<String>,
    /// Speed ÷ expected speed: `3 % below`, and its spread.
    pub(super) against: Option<String>,
    pub(super) sd_ratio: Option<String>,
    pub(super) repeatability: Option<String>,
    pub(super) outliers: Vec<String>,
}

/// One curve and one line are drawn for all groups where they recorded
/// the same of their apparatus.
pub(super) fn graph(report: &ClassReport) -> Graph {
    let points: Vec<_> = handed_in(report)
        .map(|(group, work, standing)| GroupPoints {
            name: &group.bench.label,
            sheet: &work.assessment,
            outlier: standing.outlier,
        })
        .collect();
    let title = "f against 1/λ, every group";
    match common_expectation(&sheets(report)) {
        Some(expected) => {
            let line = report.summary.through_origin.as_ref();
            class_graph("class-graph", title, &points, line, Some(&expected))
        }
        None => class_graph("class-graph", title, &points, None, None),
    }
}

pub(super) fn class_line(report: &ClassReport, places: usize) -> ClassLine {
    let summary = &report.summary;
    let outliers = report
        .groups
        .iter()
        .filter(|group| group.standing.is_some_and(|s| s.outlier));
    let is_alike = common_expectation(&sheets(report)).is_some();
    let mean = summary.mean.filter(|_| is_alike).map(|mean| {
        let interval = speed_range(mean.interval95(), places);
        let interval = if interval.is_empty() {
            interval
        } else {
            format!("; 95 % interval: {interval}")
        };
        format!("{} m/s{interval}", fixed(Some(mean.value), places))
    });
    ClassLine {
        mean,
        counted: summary.counted,
        sd: summary
            .sd
            .filter(|_| is_alike)
            .map(|sd| fixed(Some(sd), places)),
        against: summary.mean_ratio.map(against),
        sd_ratio: summary.sd_ratio.map(percent),
        repeatability: summary.repeatability.map(percent),
        outliers: outliers.map(|group| group.bench.label.clone()).collect(),
    }
}

/// Returns the sheets of the groups that have handed in.
fn sheets(report: &ClassReport) -> Vec<&Sheet> {
    handed_in(report).map(|(_, work, _)| &work.sheet).collect()
}

/// Returns the kits, each with what the groups that used it measured.
pub(super) fn kit_table(report: &ClassReport) -> PageTable {
    // An outlier's own slip must not pass for its kit's.
    let sheets: Vec<_> = handed_in(report)
        .filter(|(_, _, standing)| !standing.outlier)
        .map(|(group, work, _)| (kit(&group.bench, Some(work)), &work.assessment))
        .collect();
    Table::of(&by_kit(&sheets))
        .text("Kit", |kit| &kit.kit)
        .figure("Groups", |kit| kit.sheets)
        .text("Median against what it should give", |kit| {
            format!("{} it", against(kit.median_ratio))
        })
        .on_page(
            "Table of kits",
            "Groups that have handed in, outliers left aside. An oddity that every group of one kit shares is the kit’s, not the groups’",
        )
}
