//! Marking one point across all sheets.

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::batch::seen;
use super::given::Refused;
use super::point_view::{PointView, Versions, view};
use super::{find, place};
use crate::assets;
use crate::clock::long_date;
use crate::db::class_set::ClassSet;
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::report::marking::MarkingReport;
use crate::session::SignedIn;
use crate::state::AppState;

/// The page.
#[derive(askama::Template)]
#[template(path = "marking/point.html")]
pub(super) struct PointPage {
    layout: Layout,
    script_url: String,
    class_set: ClassSet,
    date: String,
    /// The point itself, as its first sheet has it: for its words.
    about: Option<PointView>,
    key: i64,
    before: Option<i64>,
    after: Option<i64>,
    marked: usize,
    /// Sheets with a suggestion and without a mark.
    waiting: usize,
    /// What the page was made from, for acts on all of its sheets.
    seen: String,
    sheets: Vec<(String, PointView)>,
}

/// The page.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path((id, key)): Path<(ClassSetId, i64)>,
) -> Result<Response, AppError> {
    let report = find(&state, id).await?;
    let at = place(&report, key)?;
    Ok(page(&state, by.layout, &report, at, None).into_response())
}

/// The page, perhaps with an award that could not be taken.
pub(super) fn page(
    state: &AppState,
    layout: Layout,
    report: &MarkingReport,
    at: usize,
    refused: Option<&Refused>,
) -> Page<PointPage> {
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let class = &report.class;
    let versions = Versions::new();
    let view = |sheet: usize| view(report, sheet, at, &versions, &when, refused);
    let standings = || report.sheets.iter().map(|sheet| &sheet.points[at]);
    let neighbour = |at: Option<usize>| at.and_then(|at| Some(report.points.get(at)?.key));
    let labels = class.groups.iter().map(|group| group.bench.label.clone());
    Page(PointPage {
        layout,
        script_url: assets::url("marking.js"),
        date: long_date(&class.class_set.held_on),
        about: (!report.sheets.is_empty()).then(|| view(0)),
        key: report.points[at].key,
        before: neighbour(at.checked_sub(1)),
        after: neighbour(Some(at + 1)),
        marked: standings().filter(|p| p.awarded().is_some()).count(),
        waiting: standings()
            .filter(|p| p.suggestion.is_some() && p.awarded().is_none())
            .count(),
        seen: seen(report, (0..report.sheets.len()).map(|sheet| (sheet, at))),
        sheets: labels.zip((0..).map(view)).collect(),
        class_set: class.class_set.clone(),
    })
}
