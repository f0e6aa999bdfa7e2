//! A row of the table of groups.

use analysis::assess::{Assessment, OwnAnswer, RowResult, Standing};
use analysis::slip::Kind;
use analysis::unit::Unit;

use crate::report::class_set::{ClassReport, GroupReport};
use crate::report::finding::{FindingLine, of_group};
use crate::report::flag::{self, FlagLine};
use crate::report::{Work, kit, progress, shared};
use crate::words::number::{against, fixed, range};
use crate::words::{Say, label};

/// A row of the table of groups.
pub(super) struct GroupLine {
    pub(super) label: String,
    /// How far it has come, in words.
    pub(super) state: String,
    pub(super) kit: String,
    /// Whose readings it says that these are; blank for its own.
    pub(super) shared: String,
    pub(super) rows: usize,
    pub(super) has_working: bool,
    pub(super) speed: String,
    pub(super) interval: String,
    /// `3 % below` what its own apparatus should give.
    pub(super) against: String,
    pub(super) own_answer: String,
    pub(super) slips: Vec<FlagLine>,
    /// Slips that the readings suggest.
    pub(super) suggested: Vec<FindingLine>,
    /// Labels of rows that do not belong with the others.
    pub(super) anomalous: Vec<String>,
    pub(super) is_outlier: bool,
}

pub(super) fn group_line(
    report: &ClassReport,
    group: &GroupReport,
    places: usize,
    when: &dyn Fn(i64) -> String,
) -> GroupLine {
    let assessment = group.work.as_ref().map(|work| &work.assessment);
    let speed = assessment.and_then(|a| a.speed);
    let ratio = assessment.and_then(Assessment::log_ratio).map(f64::exp);
    GroupLine {
        label: group.bench.label.clone(),
        state: progress(&group.bench, when).unwrap_or_else(|| "nothing yet".to_owned()),
        kit: kit(&group.bench, group.work.as_ref()).to_owned(),
        shared: shared(group.work.as_ref()).to_owned(),
        has_working: group.work.as_ref().is_some_and(Work::has_working),
        rows: assessment.map_or(0, |a| {
            a.rows.iter().filter(|row| row.speed.is_some()).count()
        }),
        speed: fixed(speed.map(|s| s.value), places),
        interval: range(speed.and_then(|s| s.interval), places),
        against: ratio.map(against).unwrap_or_default(),
        own_answer: assessment
            .and_then(|a| a.own_answer.as_ref())
            .map_or_else(String::new, own_answer),
        slips: group
            .work
            .as_ref()
            .map(|work| flag::lines(Say::english(), work, Kind::Slip))
            .unwrap_or_default(),
        suggested: of_group(report, group),
        anomalous: assessment.map(anomalous_rows).unwrap_or_default(),
        is_outlier: group.standing.is_some_and(|standing| standing.outlier),
    }
}

fn own_answer(answer: &OwnAnswer) -> String {
    let unit = answer.unit.map_or("(no unit)", Unit::symbol);
    format!("{} {unit}, {}", answer.text, label(answer.field))
}

fn anomalous_rows(assessment: &Assessment) -> Vec<String> {
    let odd = |row: &&RowResult| row.standing == Standing::Anomalous;
    assessment
        .rows
        .iter()
        .filter(odd)
        .map(|row| row.label.clone())
        .collect()
}
