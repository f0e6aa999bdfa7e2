//! Marking one sheet: what the group did, and every point beside it.

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::batch::seen;
use super::given::Refused;
use super::point_view::{PointView, Versions, view};
use super::{bench, find};
use crate::assets;
use crate::clock::long_date;
use crate::db::annotation::{self, Annotation};
use crate::db::class_set::ClassSet;
use crate::db::comment::{self, Comment};
use crate::db::revision;
use crate::error::AppError;
use crate::ids::{AnnotationId, ClassSetId};
use crate::layout::{Layout, Page};
use crate::pages::sheet::body::{Body, body};
use crate::report::marking::MarkingReport;
use crate::report::{Work, about, capitalised, kit, progress};
use crate::session::SignedIn;
use crate::state::AppState;

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
    State(state): State<AppState>,
    by: SignedIn,
    Path((id, label)): Path<(ClassSetId, String)>,
) -> Result<Response, AppError> {
    let report = find(&state, id).await?;
    let at = bench(&report, &label)?;
    Ok(page(&state, by.layout, report, at, None)
        .await?
        .into_response())
}

/// The page, perhaps with an award that could not be taken.
pub(super) async fn page(
    state: &AppState,
    layout: Layout,
    report: MarkingReport,
    at: usize,
    refused: Option<Refused>,
) -> Result<Page<SheetPage>, AppError> {
    put_together(state, layout, &report, at, refused.as_ref(), None).await
}

/// The page with a note that could not be kept.
pub(super) async fn with_note(
    state: &AppState,
    layout: Layout,
    report: &MarkingReport,
    at: usize,
    note: RefusedNote,
) -> Result<Page<SheetPage>, AppError> {
    put_together(state, layout, report, at, None, Some(note)).await
}

async fn put_together(
    state: &AppState,
    layout: Layout,
    report: &MarkingReport,
    at: usize,
    refused: Option<&Refused>,
    refused_note: Option<RefusedNote>,
) -> Result<Page<SheetPage>, AppError> {
    let (class, group, sheet) = (&report.class, &report.class.groups[at], &report.sheets[at]);
    let mut db = state.store.reader(crate::ids::DEPARTMENT).await?;
    let notes = annotation::list(&mut db, group.bench.sheet_id).await?;
    let comments = comment::list(&mut db).await?;
    let versions = revision::list_versions(&mut db, class.class_set.id).await?;
    drop(db);
    let versions: Versions = versions.into_iter().collect();
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let neighbour = |at: Option<usize>| {
        let group = at.and_then(|at| class.groups.get(at));
        group.map(|group| group.bench.label.clone())
    };
    let points = 0..report.points.len();
    Ok(Page(SheetPage {
        layout,
        script_url: assets::url("marking.js"),
        date: long_date(&class.class_set.held_on),
        label: group.bench.label.clone(),
        kit: kit(&group.bench, group.work.as_ref()).to_owned(),
        state: progress(&group.bench, &when)
            .map_or_else(|| "Nothing stored".to_owned(), |p| capitalised(&p)),
        before: neighbour(at.checked_sub(1)),
        after: neighbour(Some(at + 1)),
        complete: report.complete(),
        sheets: report.sheets.len(),
        marked: sheet.marked(),
        total: sheet.total(),
        most: report.most(),
        waiting: sheet
            .points
            .iter()
            .filter(|p| p.suggestion.is_some() && p.awarded().is_none())
            .count(),
        seen: seen(report, points.clone().map(|point| (at, point))),
        earlier: sheet.points.iter().filter(|p| p.is_earlier()).count(),
        body: group
            .work
            .as_ref()
            .map(|work| body(work, &class.class_set, class.method)),
        points: points
            .map(|point| view(report, at, point, &versions, &when, refused))
            .collect(),
        notes: notes.iter().map(note).collect(),
        comments: comments.into_iter().filter(|c| !c.is_retired).collect(),
        steps: group.work.as_ref().map(Work::figures).unwrap_or_default(),
        class_set: class.class_set.clone(),
        refused_note,
    }))
}

fn note(note: &Annotation) -> NoteView {
    NoteView {
        id: note.id,
        about: about(note).unwrap_or_else(|| "the sheet".to_owned()),
        body: note.body.clone(),
        for_group: note.for_group,
        by: note.by.clone(),
    }
}
