//! Marking one point across all sheets.

use axum::extract::Path;
use axum::response::IntoResponse;

use super::{find, place};
use crate::db::class_set::ClassSet;
use crate::ids::ClassSetId;
use crate::pages::desk::{DeskFrame, PointView, RefusedMark, Versions};
use crate::report::desk::{Desk, OnDesk};
use crate::web::assets;
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::time::When;

#[derive(askama::Template)]
#[template(path = "marking/point.html")]
pub(super) struct PointPage<'a> {
    layout: Layout,
    script_url: String,
    class_set: &'a ClassSet,
    key: i64,
    before: Option<i64>,
    after: Option<i64>,
    marked: usize,
    /// Sheets with a suggestion and without a mark.
    waiting: usize,
    /// What the page was made from, for acts on all of its sheets.
    seen: String,
    /// Each sheet with the point on it.
    sheets: Vec<(&'a OnDesk, PointView<'a>)>,
    when: When,
}

pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path((id, key)): Path<(ClassSetId, i64)>,
) -> Reply {
    let desk = find(&state, &by, id).await?;
    let at = place(&desk, key)?;
    Ok(page(&state, by, &desk, at, None).into_response())
}

/// Returns the page, perhaps with an award that could not be taken.
pub(super) fn page<'a>(
    state: &AppState,
    by: SignedIn,
    desk: &'a Desk,
    at: usize,
    refused: Option<&RefusedMark>,
) -> Page<PointPage<'a>> {
    let frame = DeskFrame {
        desk,
        versions: &Versions::new(),
        refused,
        back: "point",
        is_open: true,
    };
    let neighbour = |at: Option<usize>| at.and_then(|at| Some(desk.points.get(at)?.key));
    let sheets = desk.sheets.iter().enumerate();
    let sheets: Vec<_> = sheets
        .map(|(sheet, on_desk)| (on_desk, frame.view(sheet, at)))
        .collect();
    let waiting = sheets.iter().filter(|(_, p)| p.standing.is_waiting());
    Page(PointPage {
        layout: by.layout,
        script_url: assets::url("marking.js"),
        class_set: &desk.class_set,
        key: desk.points[at].key,
        before: neighbour(at.checked_sub(1)),
        after: neighbour(Some(at + 1)),
        marked: desk.marked_on(at),
        waiting: waiting.count(),
        seen: desk.seen((0..desk.sheets.len()).map(|sheet| (sheet, at))),
        sheets,
        when: state.when(),
    })
}
