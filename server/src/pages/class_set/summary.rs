//! The class summary: every group beside the others, while the apparatus is
//! still up.

use analysis::assess::{Assessment, SheetSpeed};
use analysis::class_set::{GroupStanding, by_kit};
use analysis::method::Method;
use analysis::sheet::Sheet;
use analysis::slip::{Kind, Slip};
use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::suggested::{self, KitFault, SuggestedSlip, Visit};
use crate::chart::{Graph, GroupPoints, class_graph};
use crate::clock::long_date;
use crate::db::class_set::ClassSet;
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::report::class_set::{ClassReport, GroupReport, load};
use crate::report::finding::FindingLine;
use crate::report::flag::{self, FlagLine};
use crate::report::inference::keep;
use crate::report::number::{against, decimals, fixed, percent, range, speed_range};
use crate::report::question::{self, QuestionLine};
use crate::report::{Work, kit, progress, shared};
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "class_set/summary.html")]
struct SummaryPage {
    layout: Layout,
    class_set: ClassSet,
    method: Method,
    date: String,
    handed_in: usize,
    /// Labels of groups that have not handed in.
    missing: Vec<String>,
    groups: Vec<GroupLine>,
    class: ClassLine,
    /// Slips, commonest first.
    slips: Vec<SlipLine>,
    /// Groups with a figure that nothing explains: to be asked, not retaught.
    unexplained: Vec<String>,
    /// What the readings suggest.
    visits: Vec<Visit>,
    suggested_slips: Vec<SuggestedSlip>,
    kit_faults: Vec<KitFault>,
    questions: Vec<QuestionLine>,
    /// Every group's points; those that have handed in.
    graph: Graph,
    kits: Vec<KitLine>,
}

impl SummaryPage {
    /// Whether the marks need telling apart.
    fn is_any_suggested(&self) -> bool {
        let mut all = self.groups.iter().flat_map(|group| &group.suggested);
        all.any(|finding| !finding.is_dismissed())
    }

    /// Whether a kit is worth a visit.
    fn is_a_kit_for_bench(&self) -> bool {
        self.kit_faults.iter().any(|fault| fault.is_for_bench)
    }
}

/// The groups that used one kit.
struct KitLine {
    kit: String,
    groups: usize,
    against: String,
}

/// A row of the table of groups.
struct GroupLine {
    label: String,
    /// How far it has come, in words.
    state: String,
    kit: String,
    /// Whose readings it says that these are; blank for its own.
    shared: String,
    rows: usize,
    speed: String,
    interval: String,
    /// `3 % below` what its own apparatus should give.
    against: String,
    own_answer: String,
    slips: Vec<FlagLine>,
    /// Slips that the readings suggest.
    suggested: Vec<FindingLine>,
    /// Labels of rows that do not belong with the others.
    anomalous: Vec<String>,
    is_outlier: bool,
}

/// What the class as a whole shows.
struct ClassLine {
    /// `0.251 m/s, 95 % interval …`; `None` where the groups' apparatus
    /// differed, so that a mean of speeds would mean nothing.
    mean: Option<String>,
    /// Groups in the mean.
    counted: usize,
    sd: Option<String>,
    /// Speed ÷ expected speed: `3 % below`, and its spread.
    against: Option<String>,
    sd_ratio: Option<String>,
    repeatability: Option<String>,
    outliers: Vec<String>,
}

/// A slip and who made it.
struct SlipLine {
    sentence: &'static str,
    groups: usize,
    labels: Vec<String>,
}

/// The page.
///
/// # Errors
/// Not found for an unknown class set.
pub async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path(id): Path<i64>,
) -> Result<Response, AppError> {
    let mut db = state.store.reader().await?;
    let mut report = load(&mut db, ClassSetId(id)).await?;
    drop(db);
    let now = state.clock.now();
    if let Some(new) = report.to_keep.take() {
        keep(&state.store, new, now);
    }
    let places = decimals(speeds(&report).map(|speed| speed.value));
    let when = |at| state.zone.time_or_day(at, now);
    let page = SummaryPage {
        layout: by.layout,
        method: report.method,
        date: long_date(&report.class_set.held_on),
        handed_in: report
            .groups
            .iter()
            .filter(|group| group.standing.is_some())
            .count(),
        missing: missing(&report),
        groups: report
            .groups
            .iter()
            .map(|group| group_line(&report, group, places, &when))
            .collect(),
        class: class_line(&report, places),
        slips: slip_lines(&report),
        unexplained: makers(&report, Slip::DoesNotFollow),
        visits: suggested::visits(&report),
        suggested_slips: suggested::slips(&report),
        kit_faults: suggested::kit_faults(&report),
        questions: question::lines(&report),
        graph: graph(&report),
        kits: kit_lines(&report),
        class_set: report.class_set,
    };
    Ok(Page(page).into_response())
}

/// One curve and one line are drawn for all groups where they recorded the
/// same of their apparatus.
fn graph(report: &ClassReport) -> Graph {
    let points: Vec<_> = handed_in(report)
        .map(|(group, work, standing)| GroupPoints {
            name: &group.bench.label,
            sheet: &work.assessment,
            outlier: standing.outlier,
        })
        .collect();
    let title = "f against 1/λ, every group";
    match report.method.common_expectation(&sheets(report)) {
        Some(expected) => {
            let line = report.summary.through_origin.as_ref();
            class_graph("class-graph", title, &points, line, Some(&expected))
        }
        None => class_graph("class-graph", title, &points, None, None),
    }
}

fn speeds(report: &ClassReport) -> impl Iterator<Item = SheetSpeed> {
    report
        .groups
        .iter()
        .filter_map(|group| group.work.as_ref()?.assessment.speed)
}

fn group_line(
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
            .map(|work| flag::lines(work, Kind::Slip))
            .unwrap_or_default(),
        suggested: suggested::of_group(report, group),
        anomalous: assessment.map(anomalous_rows).unwrap_or_default(),
        is_outlier: group.standing.is_some_and(|standing| standing.outlier),
    }
}

fn own_answer(answer: &analysis::assess::OwnAnswer) -> String {
    let unit = answer
        .unit
        .map_or("(no unit)", analysis::unit::Unit::symbol);
    format!("{} {unit}, {}", answer.text, answer.field.label())
}

fn anomalous_rows(assessment: &Assessment) -> Vec<String> {
    let odd =
        |row: &&analysis::assess::RowResult| row.standing == analysis::assess::Standing::Anomalous;
    assessment
        .rows
        .iter()
        .filter(odd)
        .map(|row| row.label.clone())
        .collect()
}

fn class_line(report: &ClassReport, places: usize) -> ClassLine {
    let summary = &report.summary;
    let outliers = report
        .groups
        .iter()
        .filter(|group| group.standing.is_some_and(|s| s.outlier));
    let is_alike = report.method.common_expectation(&sheets(report)).is_some();
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

/// The sheets of the groups that have handed in.
fn sheets(report: &ClassReport) -> Vec<&Sheet> {
    handed_in(report).map(|(_, work, _)| &work.sheet).collect()
}

fn handed_in(report: &ClassReport) -> impl Iterator<Item = (&GroupReport, &Work, GroupStanding)> {
    report
        .groups
        .iter()
        .filter_map(|group| Some((group, group.work.as_ref()?, group.standing?)))
}

fn kit_lines(report: &ClassReport) -> Vec<KitLine> {
    // An outlier's own slip must not pass for its kit's.
    let sheets: Vec<_> = handed_in(report)
        .filter(|(_, _, standing)| !standing.outlier)
        .map(|(group, work, _)| (kit(&group.bench, Some(work)), &work.assessment))
        .collect();
    by_kit(&sheets)
        .into_iter()
        .map(|kit| KitLine {
            kit: kit.kit,
            groups: kit.sheets,
            against: against(kit.median_ratio),
        })
        .collect()
}

fn missing(report: &ClassReport) -> Vec<String> {
    let missing = report
        .groups
        .iter()
        .filter(|group| group.standing.is_none());
    missing.map(|group| group.bench.label.clone()).collect()
}

/// Labels of the groups that made a slip, as far as nobody dismissed it.
fn makers(report: &ClassReport, slip: Slip) -> Vec<String> {
    handed_in(report)
        .filter(|(_, work, _)| work.upholds(slip))
        .map(|(group, ..)| group.bench.label.clone())
        .collect()
}

fn slip_lines(report: &ClassReport) -> Vec<SlipLine> {
    report
        .summary
        .slips
        .iter()
        .filter(|count| count.slip != Slip::DoesNotFollow)
        .map(|count| SlipLine {
            sentence: count.slip.sentence(),
            groups: count.groups,
            labels: makers(report, count.slip),
        })
        .collect()
}
