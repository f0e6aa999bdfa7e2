//! Releasing marks and feedback to the groups, and taking them back.

use axum::extract::Path;

use crate::acts::ReleaseMarks;
use crate::error::{AppError, Reply};
use crate::ids::ClassSetId;
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;
use crate::words::refusal;

/// Releases what there is now, or takes back what is out.
pub(super) async fn post(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    let is_out = match form.pairs.get("release") {
        "out" => true,
        "back" => false,
        _ => {
            return Err(AppError::BadRequest(refusal::RELEASE_UNCHANGED));
        }
    };
    let act = ReleaseMarks {
        class_set: id,
        is_out,
    };
    state.act(&form.by, act).await?;
    go(format!("/class-sets/{id}/feedback"))
}
