//! Notes while marking: for the group's feedback slip, or for the staff.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::sheet::{RefusedNote, with_note};
use super::{bench, find};
use crate::db::annotation::{self, NewAnnotation};
use crate::db::comment;
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::{AnnotationId, ClassSetId};
use crate::pages::sheet::annotate::wrong_place;
use crate::report::marking::MarkingReport;
use crate::session::StaffForm;
use crate::state::AppState;

/// Longest note for the staff, and longest that fits a feedback slip and the
/// bank, in characters.
const LONGEST: usize = 2000;
const LONGEST_FOR_GROUP: usize = 500;

/// Keeps a note, and puts it into the bank where the form says so.
pub(super) async fn post(
    State(state): State<AppState>,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let report = find(&state, id).await?;
    let at = bench(&report, &label)?;
    let for_group = form.pairs.get("for") != "staff";
    let text = text(&form.pairs);
    if let Some(sentence) = fault(&report, at, &form.pairs, &text, for_group) {
        let refused = RefusedNote {
            sentence,
            text,
            row: form.pairs.get("row").to_owned(),
            step: form.pairs.get("step").to_owned(),
            for_staff: !for_group,
        };
        let page = with_note(&state, form.by.layout, &report, at, refused).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let given = |name: &str| {
        let value = form.pairs.get(name);
        (!value.is_empty()).then(|| value.to_owned())
    };
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let is_for_bank = form.pairs.get("keep") == "yes" && for_group;
    let new = NewAnnotation {
        sheet_id: report.class.groups[at].bench.sheet_id,
        row_label: given("row"),
        step: given("step"),
        body: text,
        for_group,
        staff_id: by,
        written_at: now,
    };
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            annotation::insert(db, &new).await?;
            if is_for_bank {
                comment::insert(db, &new.body, Some(by), now).await?;
            }
            Ok(())
        })
    });
    write.await?;
    Ok(Redirect::to(&format!("/class-sets/{id}/marking/sheets/{label}#notes")).into_response())
}

/// What was typed, after the comment that was picked, if one was.
fn text(pairs: &Pairs) -> String {
    let typed = pairs.trimmed("note").replace("\r\n", "\n");
    let picked = pairs.trimmed("comment");
    match (picked, typed.as_str()) {
        ("", _) => typed,
        (_, "") => picked.to_owned(),
        // With scripts the comment is in the box already.
        _ if typed.contains(picked) => typed,
        _ => format!("{picked} {typed}"),
    }
}

fn fault(
    report: &MarkingReport,
    at: usize,
    pairs: &Pairs,
    text: &str,
    for_group: bool,
) -> Option<&'static str> {
    match text.chars().count() {
        0 => Some("Type the note first, or pick a comment."),
        n if n > LONGEST => Some("Use at most 2000 characters."),
        n if for_group && n > LONGEST_FOR_GROUP => {
            Some("Use at most 500 characters: the slip has one side.")
        }
        _ => wrong_place(
            report.class.method,
            report.class.groups[at].work.as_ref(),
            pairs.get("row"),
            pairs.get("step"),
        ),
    }
}

/// Takes a note back; it is kept, and not shown any more.
pub(super) async fn withdraw(
    State(state): State<AppState>,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let report = find(&state, id).await?;
    let sheet = report.class.groups[bench(&report, &label)?].bench.sheet_id;
    let notes = annotation::list(&mut state.reader(&form.by).await?, sheet).await?;
    let named = form.pairs.get("note");
    let note = notes.iter().find(|note| note.id.0.to_string() == named);
    let note: AnnotationId = note
        .ok_or(AppError::NotFound(
            "This note is not on the sheet any more.",
        ))?
        .id;
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let write = state.store.writer().run(move |db| {
        Box::pin(async move { annotation::insert_withdrawal(db, note, by, now).await })
    });
    write.await?;
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/sheets/{label}#notes"
    )))
}
