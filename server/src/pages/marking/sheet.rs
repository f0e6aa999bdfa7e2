//! Marking one sheet: what the group did, and every point beside it.

use axum::extract::Path;
use axum::response::IntoResponse;

use super::{bench, find};
use crate::db::annotation::{self, Annotation};
use crate::db::class_set::ClassSet;
use crate::db::comment::{self, Comment};
use crate::db::revision;
use crate::ids::ClassSetId;
use crate::pages::desk::{DeskFrame, PointView, RefusedMark};
use crate::pages::note::TypedNote;
use crate::pages::sheet::body::{Body, body};
use crate::report::desk::{Desk, OnDesk};
use crate::report::{self, Work, about, kit};
use crate::web::assets;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::Say;
use crate::words::time::When;
use crate::words::version;

#[derive(askama::Template)]
#[template(path = "marking/sheet.html")]
pub(super) struct SheetPage<'a> {
    layout: Layout,
    script_url: String,
    class_set: &'a ClassSet,
    desk: &'a Desk,
    on_desk: &'a OnDesk,
    kit: &'a str,
    state: String,
    before: Option<&'a str>,
    after: Option<&'a str>,
    /// What the page was made from, for acts on all of its points.
    seen: String,
    body: Option<Body>,
    points: Vec<PointView<'a>>,
    notes: Vec<Annotation>,
    comments: Vec<Comment>,
    steps: Vec<(&'static str, &'static str)>,
    note: TypedNote,
    when: When,
}

impl SheetPage<'_> {
    fn about(&self, note: &Annotation) -> String {
        about(Say::english(), note).unwrap_or_else(|| "the sheet".to_owned())
    }
}

/// Shows the page.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path((id, label)): Path<(ClassSetId, String)>,
) -> Reply {
    let desk = find(&state, &by, id).await?;
    let at = bench(&desk, &label)?;
    let page = page(&state, by, &desk, at, None, TypedNote::default());
    Ok(page.await?.into_response())
}

/// Returns the page, perhaps with an award or a note that could not be taken.
pub(super) async fn page<'a>(
    state: &AppState,
    by: SignedIn,
    desk: &'a Desk,
    at: usize,
    refused: Option<&RefusedMark>,
    note: TypedNote,
) -> Result<Page<SheetPage<'a>>, AppError> {
    let (class_set, sheet) = (&desk.class_set, &desk.sheets[at]);
    let method = class_set.method()?;
    let mut db = state.reader(&by).await?;
    let notes = annotation::list(&mut db, sheet.sheet_id).await?;
    let mut comments = comment::list(&mut db).await?;
    let versions = revision::list_versions(&mut db, class_set.id).await?;
    drop(db);
    comments.retain(|comment| !comment.is_retired);
    let (work, bench, when) = (sheet.work.as_ref(), sheet.bench.as_ref(), state.when());
    let frame = DeskFrame {
        desk,
        versions: &versions.into_iter().collect(),
        refused,
        back: "sheet",
        is_open: true,
    };
    let neighbour = |at: Option<usize>| Some(desk.sheets.get(at?)?.label.as_str());
    let points = &sheet.marks.points;
    Ok(Page(SheetPage {
        layout: by.layout,
        script_url: assets::url("marking.js"),
        class_set,
        desk,
        on_desk: sheet,
        kit: bench.map_or("", |bench| kit(bench, work)),
        state: bench.map_or_else(String::new, |bench| {
            report::state(bench, &when, version::NOTHING)
        }),
        before: neighbour(at.checked_sub(1)),
        after: neighbour(Some(at + 1)),
        seen: desk.seen((0..points.len()).map(|point| (at, point))),
        body: work.map(|work| body(work, class_set, method)),
        points: frame.points(at),
        notes,
        comments,
        steps: work.map(Work::figures).unwrap_or_default(),
        note,
        when,
    }))
}
