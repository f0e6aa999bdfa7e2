//! Undoing my newest act: what stood before stands again.

use axum::extract::Path;
use axum::response::Redirect;

use crate::acts::{NotUndone, UndoMarks};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Undoes the newest act of whoever asks.
pub(super) async fn post(
    state: AppState,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    match state.act(&form.by, UndoMarks { class_set: id }).await? {
        Ok(()) => Ok(Redirect::to(&back(id, &form))),
        Err(NotUndone::Nothing) => Err(AppError::BadRequest(
            "You have given no mark in this class set that could be undone.",
        )),
        Err(NotUndone::Met) => Err(AppError::BadRequest(
            "Somebody else has marked one of these points since, so nothing was undone. Give the marks that you want instead.",
        )),
    }
}

/// The page that the form came from; the overview where it names none of ours.
fn back(id: ClassSetId, form: &StaffForm) -> String {
    let own = format!("/class-sets/{id}/marking");
    let named = form.pairs.get("back");
    let is_plain = named
        .chars()
        .all(|c| c.is_ascii_alphanumeric() || matches!(c, '/' | '-'));
    if named.starts_with(&own) && is_plain {
        named.to_owned()
    } else {
        own
    }
}
