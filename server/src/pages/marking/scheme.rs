//! Choosing what a class set is marked with.

use axum::extract::Path;
use axum::response::Redirect;

use crate::acts::{ChooseScheme, NotChosen};
use crate::error::AppError;
use crate::ids::{ClassSetId, SchemeVersionId};
use crate::session::StaffForm;
use crate::state::AppState;

/// Sets the scheme.
pub(super) async fn post(
    state: AppState,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let version = form.pairs.get("version").parse().map(SchemeVersionId);
    let version = version.map_err(|_| AppError::BadRequest("Choose a scheme from the list."))?;
    let act = ChooseScheme {
        class_set: id,
        version,
    };
    state.act(&form.by, act).await?.map_err(|NotChosen| {
        AppError::BadRequest(
            "Marks have been given by another scheme, and are of its points. Only a newer version of the same scheme can be used now.",
        )
    })?;
    Ok(Redirect::to(&format!("/class-sets/{id}/marking")))
}
