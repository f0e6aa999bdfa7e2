//! The class summary: every group beside the others, while the apparatus is
//! still up.

mod class;
mod group;
mod slips;
mod suggested;

use std::collections::HashSet;

use analysis::assess::SheetSpeed;
use analysis::class_set::GroupStanding;
use analysis::method::Method;
use analysis::slip::Slip;
use axum::extract::Path;

use self::class::{ClassLine, class_line, graph, kit_table};
use self::group::{GroupLine, group_line};
use self::slips::{SlipLine, makers, slip_lines};
use self::suggested::{SuggestedSlip, Visit};
use crate::chart::Graph;
use crate::db::class_set::ClassSet;
use crate::error::Reply;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::report::Work;
use crate::report::class_set::{ClassReport, GroupReport, load};
use crate::report::kits::{self, KitFault};
use crate::report::question::{self, QuestionLine};
use crate::session::SignedIn;
use crate::state::AppState;
use crate::table::PageTable;
use crate::words::number::decimals;
use crate::words::time::time_or_day;

#[derive(askama::Template)]
#[template(path = "class_set/summary.html")]
struct SummaryPage {
    layout: Layout,
    class_set: ClassSet,
    method: Method,
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
    kits: PageTable,
}

impl SummaryPage {
    /// Whether the marks need telling apart.
    fn is_any_suggested(&self) -> bool {
        let mut all = self.groups.iter().flat_map(|group| &group.suggested);
        all.any(|finding| !finding.is_dismissed())
    }

    /// The apparatus that is worth a look, each once.
    fn kits_for_bench(&self) -> Vec<String> {
        let faults = self.kit_faults.iter().filter(|fault| fault.is_for_bench);
        let mut names: Vec<_> = faults.map(KitFault::apparatus).collect();
        let mut seen = HashSet::new();
        names.retain(|name| seen.insert(name.clone()));
        names
    }
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let mut db = state.reader(&by).await?;
    let mut report = load(&mut db, id).await?;
    drop(db);
    let now = state.clock.now();
    state.keep(&by, report.to_keep.take());
    let places = decimals(speeds(&report).map(|speed| speed.value));
    let when = |at| time_or_day(&state.zone, at, now);
    let page = SummaryPage {
        layout: by.layout,
        method: report.method,
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
        kit_faults: kits::faults(&report),
        questions: question::lines(&report),
        graph: graph(&report),
        kits: kit_table(&report),
        class_set: report.class_set,
    };
    Page(page).reply()
}

fn speeds(report: &ClassReport) -> impl Iterator<Item = SheetSpeed> {
    report
        .groups
        .iter()
        .filter_map(|group| group.work.as_ref()?.assessment.speed)
}

fn handed_in(report: &ClassReport) -> impl Iterator<Item = (&GroupReport, &Work, GroupStanding)> {
    report
        .groups
        .iter()
        .filter_map(|group| Some((group, group.work.as_ref()?, group.standing?)))
}

fn missing(report: &ClassReport) -> Vec<String> {
    let missing = report
        .groups
        .iter()
        .filter(|group| group.standing.is_none());
    missing.map(|group| group.bench.label.clone()).collect()
}
