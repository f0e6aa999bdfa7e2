//! The class summary: every group beside the others, while the apparatus is
//! still up.

mod class;
mod groups;
mod slips;

use std::collections::HashSet;

use analysis::assess::SheetSpeed;
use analysis::class_set::GroupStanding;
use analysis::method::Method;
use analysis::slip::Slip;
use axum::extract::Path;

use self::class::{ClassLine, class_line, graph, kit_table};
use self::slips::{SlipLine, SuggestedSlip, Visit, makers, slip_lines, suggested_slips, visits};
use crate::chart::Graph;
use crate::db::class_set::ClassSet;
use crate::ids::ClassSetId;
use crate::report::Work;
use crate::report::class_set::{ClassReport, GroupReport, load};
use crate::report::finding::of_group;
use crate::report::kits::{self, KitFault};
use crate::report::question::{self, QuestionLine};
use crate::table::PageTable;
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::number::decimals;

#[derive(askama::Template)]
#[template(path = "class_set/summary.html")]
struct SummaryPage {
    layout: Layout,
    class_set: ClassSet,
    method: Method,
    handed_in: usize,
    /// Labels of groups that have not handed in.
    missing: Vec<String>,
    groups: PageTable,
    /// Whether the marks need telling apart.
    is_any_suggested: bool,
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
    /// Returns the apparatus that is worth a look, each once.
    fn kits_for_bench(&self) -> Vec<String> {
        let faults = self.kit_faults.iter().filter(|fault| fault.is_for_bench);
        let mut names: Vec<_> = faults.map(KitFault::apparatus).collect();
        let mut seen = HashSet::new();
        names.retain(|name| seen.insert(name.clone()));
        names
    }
}

/// Shows the page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let mut db = state.reader(&by).await?;
    let mut report = load(&mut db, id).await?;
    drop(db);
    state.keep(&by, report.to_keep.take());
    let places = decimals(speeds(&report).map(|speed| speed.value));
    let page = SummaryPage {
        layout: by.layout,
        method: report.method,
        handed_in: report
            .groups
            .iter()
            .filter(|group| group.standing.is_some())
            .count(),
        missing: missing(&report),
        groups: groups::table(&report, places, &state.when()),
        is_any_suggested: is_any_suggested(&report),
        class: class_line(&report, places),
        slips: slip_lines(&report),
        unexplained: makers(&report, Slip::DoesNotFollow),
        visits: visits(&report),
        suggested_slips: suggested_slips(&report),
        kit_faults: kits::faults(&report),
        questions: question::lines(&report),
        graph: graph(&report),
        kits: kit_table(&report),
        class_set: report.class_set,
    };
    Page(page).reply()
}

fn is_any_suggested(report: &ClassReport) -> bool {
    let mut groups = report.groups.iter();
    groups.any(|group| {
        of_group(report, group)
            .iter()
            .any(|line| !line.is_dismissed())
    })
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
