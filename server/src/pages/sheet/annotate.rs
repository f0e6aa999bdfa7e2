//! A note on a sheet, a row or a step.

use analysis::field::Field;
use analysis::method::Method;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::page::Refused;
use super::show;
use crate::db::annotation::{self, NewAnnotation};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::report::Work;
use crate::session::StaffForm;
use crate::state::AppState;

/// Longest note, in characters.
const LONGEST: usize = 2000;

/// Keeps a note.
pub(super) async fn post(
    State(state): State<AppState>,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let report = show::find(&state, id, &label, None).await?;
    // Browsers count a line's end once and send it as two characters.
    let body = form.pairs.trimmed("note").replace("\r\n", "\n");
    let (row, step) = (
        form.pairs.get("row").to_owned(),
        form.pairs.get("step").to_owned(),
    );
    let fault = match body.chars().count() {
        0 => Some("Type the note first."),
        n if n > LONGEST => Some("Use at most 2000 characters."),
        _ => wrong_place(
            report.class_set.method()?,
            report.work.as_ref(),
            &row,
            &step,
        ),
    };
    if let Some(fault) = fault {
        let refused = Refused {
            form: "note".to_owned(),
            reason: fault,
            text: body,
            row,
            step,
        };
        let page = show::page(&state, form.by.layout, report, refused)?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let given = |text: String| (!text.is_empty()).then_some(text);
    let new = NewAnnotation {
        sheet_id: report.bench.sheet_id,
        row_label: given(row),
        step: given(step),
        body,
        for_group: false,
        staff_id: form.by.staff_id,
        written_at: state.clock.now(),
    };
    let write = state
        .store
        .writer()
        .run(move |db| Box::pin(async move { annotation::insert(db, &new).await }));
    write.await?;
    Ok(Redirect::to(&format!("/class-sets/{id}/sheets/{label}#notes")).into_response())
}

/// What is wrong with what a note says that it is about: a row and a box, each
/// blank where it is about none in particular.
pub(in crate::pages) fn wrong_place(
    method: Method,
    work: Option<&Work>,
    row: &str,
    step: &str,
) -> Option<&'static str> {
    let rows = work.map_or(&[][..], |work| &work.assessment.rows);
    if !row.is_empty() && !rows.iter().any(|one| one.label == row) {
        return Some("There is no such row now. Choose again.");
    }
    let is_known = Field::named(step).is_some_and(|field| method.has(field));
    (!step.is_empty() && !is_known).then_some("Choose a figure from the list.")
}
