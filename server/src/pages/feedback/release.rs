//! Releasing marks and feedback to the groups, and taking them back.

use axum::extract::Path;
use axum::response::Redirect;

use crate::acts::ReleaseMarks;
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Releases what there is now, or takes back what is out.
pub(super) async fn post(
    state: AppState,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let is_out = match form.pairs.get("release") {
        "out" => true,
        "back" => false,
        _ => {
            return Err(AppError::BadRequest(
                "Marks are released or taken back. Nothing was changed.",
            ));
        }
    };
    let act = ReleaseMarks {
        class_set: id,
        is_out,
    };
    state.act(&form.by, act).await?;
    Ok(Redirect::to(&format!("/class-sets/{id}/feedback")))
}
