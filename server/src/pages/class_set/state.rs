//! Closing a class set and opening it again.

use axum::extract::Path;
use axum::response::Redirect;

use crate::acts::SetState;
use crate::db::class_set;
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Sets the state that the form names.
pub(super) async fn post(
    state: AppState,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let new = match form.pairs.get("state") {
        "open" => class_set::State::Open,
        "closed" => class_set::State::Closed,
        _ => {
            return Err(AppError::BadRequest(
                "A class set is open or closed. Nothing was changed.",
            ));
        }
    };
    let act = SetState {
        class_set: id,
        state: new,
    };
    state.act(&form.by, act).await?;
    Ok(Redirect::to(&format!("/class-sets/{id}")))
}
