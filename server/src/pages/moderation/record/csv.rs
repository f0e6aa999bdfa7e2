//! The record as a file.

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::find;
use crate::error::AppError;
use crate::files::record;
use crate::ids::RoundId;
use crate::pages::files::download::Attachment;
use crate::session::SignedIn;
use crate::state::AppState;

/// The file.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path(id): Path<RoundId>,
) -> Result<Response, AppError> {
    let mut db = state.reader(&by).await?;
    let found = find(&mut db, &by, id).await?;
    drop(db);
    let mut csv = Vec::new();
    let stamp = |at| state.zone.stamp(at);
    record::write(&mut csv, &found.record, &found.entries, &stamp).map_err(AppError::internal)?;
    Ok(Attachment::csv(format!("moderation-{id}.csv"), csv).into_response())
}
