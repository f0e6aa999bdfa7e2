//! Marking one sheet: what the group did, and every point beside it.

use axum::extract::Path;
use axum::response::IntoResponse;

use super::{bench, find};
use crate::assets;
use crate::clock::long_date;
use crate::db::annotation::{self, Annotation};
use crate::db::class_set::ClassSet;
use crate::db::comment::{self, Comment};
use crate::db::revision;
use crate::error::{AppError, Reply};
use crate::ids::{AnnotationId, ClassSetId};
use crate::layout::{Layout, Page};
use crate::pages::desk::{Frame, PointView, Refused};
use crate::pages::sheet::body::{Body, body};
use crate::report::desk::{Desk, PointStanding};
use crate::report::{Work, about, kit, progress};
use crate::session::SignedIn;
use crate::state::AppState;
use crate::words::{Say, capitalised};

/// The page.
#[derive(askama::Template)]
#[template(path = "marking/sheet.html")]
pub(super) struct SheetPage {
    layout: Layout,
    script_url: String,
    class_set: ClassSet,
    date: String,
    label: String,
    kit: String,
    state: String,
    before: Option<String>,
    after: Option<String>,
    /// Complete sheets, and all of them.
    complete: usize,
    sheets: usize,
    marked: usize,
    total: i64,
    most: u32,
    /// Points with a suggestion and without a mark.
    waiting: usize,
    /// What the page was made from, for acts on all of its points.
    seen: String,
    /// Points whose mark was given on something that has changed.
    earlier: usize,
    body: Option<Body>,
    points: Vec<PointView>,
    notes: Vec<NoteView>,
    comments: Vec<Comment>,
    steps: Vec<(&'static str, &'static str)>,
    refused_note: Option<RefusedNote>,
}

/// A note that is on the sheet.
pub(super) struct NoteView {
    id: AnnotationId,
    about: String,
    body: String,
    for_group: bool,
    by: String,
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

impl SheetPage {
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
    let page = page(&state, by, &desk, at, None);
    Ok(page.await?.into_response())
}

/// The page, perhaps with an award that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: SignedIn,
    desk: &Desk,
    at: usize,
    refused: Option<&Refused>,
) -> Result<Page<SheetPage>, AppError> {
    put_together(state, by, desk, at, refused, None).await
}

/// The page with a note that could not be kept.
pub(super) async fn with_note(
    state: &AppState,
    by: SignedIn,
    desk: &Desk,
    at: usize,
    note: RefusedNote,
) -> Result<Page<SheetPage>, AppError> {
    put_together(state, by, desk, at, None, Some(note)).await
}

async fn put_together(
    state: &AppState,
    by: SignedIn,
    desk: &Desk,
    at: usize,
    refused: Option<&Refused>,
    refused_note: Option<RefusedNote>,
) -> Result<Page<SheetPage>, AppError> {
    let (class_set, sheet) = (&desk.class_set, &desk.sheets[at]);
    let method = class_set.method()?;
    let mut db = state.reader(&by).await?;
    let notes = annotation::list(&mut db, sheet.sheet_id).await?;
    let comments = comment::list(&mut db).await?;
    let versions = revision::list_versions(&mut db, class_set.id).await?;
    drop(db);
    let (work, now) = (sheet.work.as_ref(), state.clock.now());
    let when = |at| state.zone.time_or_day(at, now);
    let frame = Frame {
        desk,
        when: &when,
        versions: &versions.into_iter().collect(),
        refused,
        back: "sheet",
        is_open: true,
    };
    let neighbour = |at: Option<usize>| Some(desk.sheets.get(at?)?.label.clone());
    let stands = sheet.bench.as_ref().and_then(|one| progress(one, &when));
    let kit = sheet
        .bench
        .as_ref()
        .map(|bench| kit(bench, work).to_owned());
    let standings = &sheet.marks.points;
    let waiting = |p: &&PointStanding| p.suggestion.is_some() && p.awarded().is_none();
    let points = 0..desk.points.len();
    Ok(Page(SheetPage {
        layout: by.layout,
        script_url: assets::url("marking.js"),
        date: long_date(&class_set.held_on),
        label: sheet.label.clone(),
        kit: kit.unwrap_or_default(),
        state: stands.map_or_else(|| "Nothing stored".to_owned(), |p| capitalised(&p)),
        before: neighbour(at.checked_sub(1)),
        after: neighbour(Some(at + 1)),
        complete: desk.complete(),
        sheets: desk.sheets.len(),
        marked: sheet.marks.marked(),
        total: sheet.marks.total(),
        most: desk.most(),
        waiting: standings.iter().filter(waiting).count(),
        seen: desk.seen(points.clone().map(|point| (at, point))),
        earlier: standings.iter().filter(|p| p.is_earlier()).count(),
        body: work.map(|work| body(work, class_set, method)),
        points: points.map(|point| frame.view(at, point)).collect(),
        notes: notes.iter().map(note).collect(),
        comments: comments.into_iter().filter(|c| !c.is_retired).collect(),
        steps: work.map(Work::figures).unwrap_or_default(),
        class_set: class_set.clone(),
        refused_note,
    }))
}

fn note(note: &Annotation) -> NoteView {
    NoteView {
        id: note.id,
        about: about(Say::english(), note).unwrap_or_else(|| "the sheet".to_owned()),
        body: note.body.clone(),
        for_group: note.for_group,
        by: note.by.clone(),
    }
}
