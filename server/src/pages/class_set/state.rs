//! Closing a class set and opening it again.

use axum::extract::Path;

use crate::acts::SetState;
use crate::db::class_set;
use crate::error::{AppError, Reply};
use crate::ids::ClassSetId;
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;
use crate::words::refusal;

/// Sets the state that the form names.
pub(super) async fn post(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    let new = match form.pairs.get("state") {
        "open" => class_set::State::Open,
        "closed" => class_set::State::Closed,
        _ => {
            return Err(AppError::BadRequest(refusal::STATE_UNCHANGED));
        }
    };
    let act = SetState {
        class_set: id,
        state: new,
    };
    state.act(&form.by, act).await?;
    go(format!("/class-sets/{id}"))
}
