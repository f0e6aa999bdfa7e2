//! Leaving a bench, so that the next pupils at this computer do not meet it.

use axum::response::Redirect;

use super::AtBench;
use crate::acts::LeaveBench;
use crate::error::AppError;
use crate::state::AppState;

/// Ends this browser's visit.
pub(super) async fn post(state: AppState, at: AtBench) -> Result<Redirect, AppError> {
    if let Some(visit) = at.visit {
        let class_set = at.class_set.id;
        let act = LeaveBench { class_set };
        state.act(&(at.department, visit), act).await?;
    }
    Ok(Redirect::to(&format!("/c/{}", at.class_set.join_code)))
}
