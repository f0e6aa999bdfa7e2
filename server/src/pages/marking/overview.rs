//! Where a pile stands.

use axum::extract::Path;

use super::find;
use crate::clock::long_date;
use crate::db::class_set::ClassSet;
use crate::db::scheme::{self, Scheme, Version};
use crate::error::Reply;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::report::desk::{Desk, PointStanding};
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
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let desk = find(&state, &by, id).await?;
    let schemes = scheme::list(&mut state.reader(&by).await?).await?;
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let is_begun = desk.is_begun();
    let of_method = |scheme: &Scheme| scheme.method == desk.class_set.method;
    let newer = schemes
        .iter()
        .find(|scheme| scheme.id == desk.version.scheme_id && scheme.version_id != desk.version.id);
    let newer = newer.cloned();
    let choices = schemes
        .into_iter()
        .filter(|scheme| !is_begun && of_method(scheme) && !scheme.is_retired);
    let page = OverviewPage {
        layout: by.layout,
        date: long_date(&desk.class_set.held_on),
        most: desk.most(),
        complete: desk.complete(),
        marked: desk.sheets.iter().map(|sheet| sheet.marks.marked()).sum(),
        all: desk.sheets.len() * desk.points.len(),
        next: next(&desk),
        sheets: sheets(&desk, &when),
        points: points(&desk),
        choices: choices.collect(),
        newer,
        version: desk.version,
        class_set: desk.class_set,
    };
    Page(page).reply()
}

/// The first sheet with something stored that is not complete, else any.
fn next(desk: &Desk) -> Option<String> {
    let open = desk.sheets.iter().filter(|one| !one.marks.is_complete());
    let open: Vec<_> = open.collect();
    let with_work = open.iter().find(|sheet| sheet.work.is_some());
    Some(with_work.or(open.first())?.label.clone())
}

fn sheets(desk: &Desk, when: &dyn Fn(i64) -> String) -> Vec<SheetLine> {
    let sheets = desk.sheets.iter();
    sheets
        .map(|sheet| {
            let stands = sheet.bench.as_ref().and_then(|one| progress(one, when));
            let points = &sheet.marks.points;
            SheetLine {
                label: sheet.label.clone(),
                state: stands.unwrap_or_else(|| "nothing stored".to_owned()),
                total: sheet.marks.total(),
                open: points.len() - sheet.marks.marked(),
                earlier: points.iter().filter(|p| p.is_earlier()).count(),
            }
        })
        .collect()
}

fn points(desk: &Desk) -> Vec<PointLine> {
    let lines = desk.points.iter().enumerate().map(|(at, point)| {
        let standings = desk.sheets.iter().map(|sheet| &sheet.marks.points[at]);
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
