//! Leaving a bench, so that the next pupils at this computer do not meet it.

use axum::extract::State;
use axum::response::Redirect;

use super::AtBench;
use crate::db::visit;
use crate::error::AppError;
use crate::state::AppState;

/// Ends this browser's visit.
pub(super) async fn post(State(state): State<AppState>, at: AtBench) -> Result<Redirect, AppError> {
    if let Some(id) = at.visit {
        let tell = state.changes.announcing(at.class_set.id);
        let write = state.store.writer().run_and_tell(tell, move |db| {
            Box::pin(async move { visit::update_left(db, id).await })
        });
        write.await?;
    }
    Ok(Redirect::to(&format!("/c/{}", at.class_set.join_code)))
}
