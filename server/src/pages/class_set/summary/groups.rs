//! The table of groups.

use analysis::assess::{Assessment, OwnAnswer, Standing};
use analysis::slip::Kind;
use analysis::unit::Unit;

use crate::report::class_set::{ClassReport, GroupReport};
use crate::report::finding::{FindingLine, of_group};
use crate::report::flag::{self, FlagLine};
use crate::report::{Work, kit, progress, shared};
use crate::table::{Cell, PageTable, Table};
use crate::words::number::{against, fixed, range};
use crate::words::time::When;
use crate::words::{Say, label};

/// What the figures of a group show and its readings suggest.
#[derive(askama::Template)]
#[template(path = "class_set/shows.html")]
struct Shows<'a> {
    /// Rows that give a speed.
    rows: usize,
    has_working: bool,
    slips: Vec<FlagLine>,
    /// Slips that the readings suggest.
    suggested: Vec<FindingLine>,
    /// Labels of rows that do not belong with the others.
    anomalous: Vec<&'a str>,
    /// How far it has come, in words.
    state: String,
    /// Whose readings it says that these are; blank for its own.
    shared: &'a str,
}

/// Returns the groups, with speeds to so many decimals.
pub(super) fn table(report: &ClassReport, places: usize, when: &When) -> PageTable {
    let sheets = format!("/class-sets/{}/sheets", report.class_set.id);
    let groups = report.groups.iter().map(|group| {
        let work = group.work.as_ref();
        (group, work.map(|work| &work.assessment))
    });
    let groups: Vec<(&GroupReport, Option<&Assessment>)> = groups.collect();
    let speed = |judged: &Option<&Assessment>| judged.and_then(|judged| judged.speed);
    Table::of(&groups)
        .text("Group", |(group, _)| {
            let label = &group.bench.label;
            let says = format!("Sheet of group {label}");
            Cell::from(label)
                .link_called(format!("{sheets}/{label}"), says)
                .below(kit(&group.bench, group.work.as_ref()))
        })
        .words(
            "What their figures show, and what their readings suggest",
            |(group, _)| Cell::drawn(&shows(report, group, when)),
        )
        .figure("Rows", |(_, judged)| judged.map_or(0, with_speed))
        .figure("Speed", |(_, judged)| fixed(speed(judged).map(|s| s.value), places))
        .unit("m/s")
        .figure("95 % interval", |(_, judged)| {
            range(speed(judged).and_then(|s| s.interval), places)
        })
        .unit("m/s")
        .text("Against what its apparatus should give", |(group, judged)| {
            let ratio = judged.and_then(Assessment::log_ratio);
            let ratio = ratio.map(|ratio| Cell::from(format!("{} it", against(ratio.exp()))));
            let is_outlier = group.standing.is_some_and(|standing| standing.outlier);
            let outlier = Cell::from("does not belong with the class");
            let outlier = is_outlier.then(|| outlier.strong().class("outlier"));
            Cell::lines(ratio.into_iter().chain(outlier))
        })
        .text("Their own answer", |(_, judged)| {
            let answer = judged.and_then(|judged| judged.own_answer.as_ref());
            answer.map_or_else(String::new, own_answer)
        })
        .on_page(
            "Table of groups",
            "Speeds recomputed from each group’s own readings: the gradient through the origin, with its 95 % interval",
        )
}

fn shows<'a>(report: &ClassReport, group: &'a GroupReport, when: &When) -> Shows<'a> {
    let work = group.work.as_ref();
    let rows = work.iter().flat_map(|work| &work.assessment.rows);
    let odd = rows.filter(|row| row.standing == Standing::Anomalous);
    let slips = work.map(|work| flag::lines(Say::english(), work, Kind::Slip));
    Shows {
        rows: work.map_or(0, |work| with_speed(&work.assessment)),
        has_working: work.is_some_and(Work::has_working),
        slips: slips.unwrap_or_default(),
        suggested: of_group(report, group),
        anomalous: odd.map(|row| row.label.as_str()).collect(),
        state: progress(&group.bench, when).unwrap_or_else(|| "nothing yet".to_owned()),
        shared: shared(work),
    }
}

/// Counts the rows that give a speed.
fn with_speed(judged: &Assessment) -> usize {
    judged.rows.iter().filter(|row| row.speed.is_some()).count()
}

fn own_answer(answer: &OwnAnswer) -> String {
    let unit = answer.unit.map_or("(no unit)", Unit::symbol);
    format!("{} {unit}, {}", answer.text, label(answer.field))
}
