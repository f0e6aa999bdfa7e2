//! Where a pile stands.

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::find;
use crate::clock::long_date;
use crate::db::class_set::ClassSet;
use crate::db::scheme::{self, Scheme, Version};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::report::marking::{MarkingReport, PointStanding};
use crate::report::progress;
use crate::session::SignedIn;
use crate::state::AppState;

/// The page.
#[derive(askama::Template)]
#[template(path = "marking/overview.html")]
struct OverviewPage {
    layout: Layout,
    class_set: ClassSet,
    date: String,
    version: Version,
    most: u32,
    complete: usize,
    marked: usize,
    all: usize,
    /// The first sheet that is not complete; `None` where all are.
    next: Option<String>,
    sheets: Vec<SheetLine>,
    points: Vec<PointLine>,
    /// Schemes to choose from while nothing is marked; else none.
    choices: Vec<Scheme>,
    /// A newer version of the scheme.
    newer: Option<Scheme>,
}

struct SheetLine {
    label: String,
    state: String,
    total: i64,
    open: usize,
    earlier: usize,
}

struct PointLine {
    key: i64,
    number: i64,
    title: String,
    most: u32,
    marked: usize,
    by_eye: bool,
}

/// The page.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path(id): Path<ClassSetId>,
) -> Result<Response, AppError> {
    let report = find(&state, id).await?;
    let schemes = scheme::list(&mut state.reader(&by).await?).await?;
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let is_begun = report.is_begun();
    let of_method = |scheme: &Scheme| scheme.method == report.class.class_set.method;
    let newer = schemes.iter().find(|scheme| {
        scheme.id == report.version.scheme_id && scheme.version_id != report.version.id
    });
    let newer = newer.cloned();
    let choices = schemes
        .into_iter()
        .filter(|scheme| !is_begun && of_method(scheme) && !scheme.is_retired);
    let page = OverviewPage {
        layout: by.layout,
        date: long_date(&report.class.class_set.held_on),
        most: report.most(),
        complete: report.complete(),
        marked: report.sheets.iter().map(|sheet| sheet.marked()).sum(),
        all: report.sheets.len() * report.points.len(),
        next: next(&report),
        sheets: sheets(&report, &when),
        points: points(&report),
        choices: choices.collect(),
        newer,
        version: report.version,
        class_set: report.class.class_set,
    };
    Ok(Page(page).into_response())
}

/// The first sheet with something stored that is not complete, else any.
fn next(report: &MarkingReport) -> Option<String> {
    let groups = report.class.groups.iter().zip(&report.sheets);
    let open: Vec<_> = groups.filter(|(_, sheet)| !sheet.is_complete()).collect();
    let with_work = open.iter().find(|(group, _)| group.work.is_some());
    let (group, _) = with_work.or(open.first())?;
    Some(group.bench.label.clone())
}

fn sheets(report: &MarkingReport, when: &dyn Fn(i64) -> String) -> Vec<SheetLine> {
    let groups = report.class.groups.iter().zip(&report.sheets);
    groups
        .map(|(group, sheet)| SheetLine {
            label: group.bench.label.clone(),
            state: progress(&group.bench, when).unwrap_or_else(|| "nothing stored".to_owned()),
            total: sheet.total(),
            open: sheet.points.len() - sheet.marked(),
            earlier: sheet.points.iter().filter(|p| p.is_earlier()).count(),
        })
        .collect()
}

fn points(report: &MarkingReport) -> Vec<PointLine> {
    let lines = report.points.iter().enumerate().map(|(at, point)| {
        let standings = report.sheets.iter().map(|sheet| &sheet.points[at]);
        PointLine {
            key: point.key,
            number: point.number,
            title: point.point.title.clone(),
            most: point.point.marks,
            marked: standings.filter_map(PointStanding::awarded).count(),
            by_eye: matches!(point.point.judged, analysis::scheme::Judged::ByEye(_)),
        }
    });
    lines.collect()
}
