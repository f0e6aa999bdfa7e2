//! Marking one point across all sheets.

use axum::extract::Path;
use axum::response::IntoResponse;

use super::{find, place};
use crate::assets;
use crate::clock::long_date;
use crate::db::class_set::ClassSet;
use crate::error::Reply;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::pages::desk::{Frame, PointView, Refused, Versions};
use crate::report::desk::Desk;
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
    /// The label of each sheet, whether anything is stored, and the point.
    sheets: Vec<(String, bool, PointView)>,
}

/// The page.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path((id, key)): Path<(ClassSetId, i64)>,
) -> Reply {
    let desk = find(&state, &by, id).await?;
    let at = place(&desk, key)?;
    Ok(page(&state, by, &desk, at, None).into_response())
}

/// The page, perhaps with an award that could not be taken.
pub(super) fn page(
    state: &AppState,
    by: SignedIn,
    desk: &Desk,
    at: usize,
    refused: Option<&Refused>,
) -> Page<PointPage> {
    let now = state.clock.now();
    let frame = Frame {
        desk,
        when: &|at| state.zone.time_or_day(at, now),
        versions: &Versions::new(),
        refused,
        back: "point",
        is_open: true,
    };
    let standings = || desk.sheets.iter().map(|sheet| &sheet.marks.points[at]);
    let neighbour = |at: Option<usize>| at.and_then(|at| Some(desk.points.get(at)?.key));
    let sheets = desk.sheets.iter().enumerate().map(|(sheet, on_desk)| {
        let (label, is_stored) = (on_desk.label.clone(), on_desk.work.is_some());
        (label, is_stored, frame.view(sheet, at))
    });
    Page(PointPage {
        layout: by.layout,
        script_url: assets::url("marking.js"),
        date: long_date(&desk.class_set.held_on),
        about: (!desk.sheets.is_empty()).then(|| frame.view(0, at)),
        key: desk.points[at].key,
        before: neighbour(at.checked_sub(1)),
        after: neighbour(Some(at + 1)),
        marked: standings().filter(|p| p.awarded().is_some()).count(),
        waiting: standings()
            .filter(|p| p.suggestion.is_some() && p.awarded().is_none())
            .count(),
        seen: desk.seen((0..desk.sheets.len()).map(|sheet| (sheet, at))),
        sheets: sheets.collect(),
        class_set: desk.class_set.clone(),
    })
}
