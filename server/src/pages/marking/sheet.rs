//! Marking one sheet: what the group did, and every point beside it.

use axum::extract::Path;
use axum::response::IntoResponse;

use super::{bench, find};
use crate::assets;
use crate::db::annotation::{self, Annotation};
use crate::db::class_set::ClassSet;
use crate::db::comment::{self, Comment};
use crate::db::revision;
use crate::error::{AppError, Reply};
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::pages::desk::{Frame, PointView, Refused};
use crate::pages::sheet::body::{Body, body};
use crate::report::desk::{Desk, MarkedSheet};
use crate::report::{Work, about, kit, progress};
use crate::session::SignedIn;
use crate::state::AppState;
use crate::words::time::{When, long_date};
use crate::words::{Say, version};

#[derive(askama::Template)]
#[template(path = "marking/sheet.html")]
pub(super) struct SheetPage<'a> {
    layout: Layout,
    script_url: String,
    class_set: &'a ClassSet,
    date: String,
    desk: &'a Desk,
    label: &'a str,
    kit: &'a str,
    state: String,
    before: Option<&'a str>,
    after: Option<&'a str>,
    marks: &'a MarkedSheet,
    /// Points with a suggestion and without a mark.
    waiting: usize,
    /// What the page was made from, for acts on all of its points.
    seen: String,
    body: Option<Body>,
    points: Vec<PointView<'a>>,
    notes: Vec<Annotation>,
    comments: Vec<Comment>,
    steps: Vec<(&'static str, &'static str)>,
    refused_note: Option<RefusedNote>,
    when: When,
}

/// A note that cannot be kept as it is.
#[derive(Clone, Debug, Default)]
pub(super) struct RefusedNote {
    pub(super) sentence: &'static str,
    pub(super) text: String,
    pub(super) row: String,
    pub(super) step: String,
    pub(super) for_staff: bool,
}

impl SheetPage<'_> {
    fn about(&self, note: &Annotation) -> String {
        about(Say::english(), note).unwrap_or_else(|| "the sheet".to_owned())
    }

    /// Whether a note that was refused was about this row.
    fn is_row(&self, row: &str) -> bool {
        self.refused_note.as_ref().is_some_and(|n| n.row == row)
    }

    /// Whether it was about this figure.
    fn is_step(&self, name: &str) -> bool {
        self.refused_note.as_ref().is_some_and(|n| n.step == name)
    }

    /// Whether it was for the staff.
    fn is_for_staff(&self) -> bool {
        self.refused_note.as_ref().is_some_and(|n| n.for_staff)
    }
}

/// The page.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path((id, label)): Path<(ClassSetId, String)>,
) -> Reply {
    let desk = find(&state, &by, id).await?;
    let at = bench(&desk, &label)?;
    let page = page(&state, by, &desk, at, None, None);
    Ok(page.await?.into_response())
}

/// The page, perhaps with an award or a note that could not be taken.
pub(super) async fn page<'a>(
    state: &AppState,
    by: SignedIn,
    desk: &'a Desk,
    at: usize,
    refused: Option<&Refused>,
    refused_note: Option<RefusedNote>,
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
    let frame = Frame {
        desk,
        versions: &versions.into_iter().collect(),
        refused,
        back: "sheet",
        is_open: true,
    };
    let neighbour = |at: Option<usize>| Some(desk.sheets.get(at?)?.label.as_str());
    let stands = bench.and_then(|bench| progress(bench, &|at| when.says(at)));
    let points = &sheet.marks.points;
    Ok(Page(SheetPage {
        layout: by.layout,
        script_url: assets::url("marking.js"),
        class_set,
        date: long_date(&class_set.held_on),
        desk,
        label: &sheet.label,
        kit: bench.map_or("", |bench| kit(bench, work)),
        state: version::progress(stands, version::NOTHING),
        before: neighbour(at.checked_sub(1)),
        after: neighbour(Some(at + 1)),
        marks: &sheet.marks,
        waiting: points.iter().filter(|point| point.is_waiting()).count(),
        seen: desk.seen((0..points.len()).map(|point| (at, point))),
        body: work.map(|work| body(work, class_set, method)),
        points: frame.points(at),
        notes,
        comments,
        steps: work.map(Work::figures).unwrap_or_default(),
        refused_note,
        when,
    }))
}
