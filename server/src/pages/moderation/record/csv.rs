//! The record as a file.

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::find;
use crate::attachment::Attachment;
use crate::error::AppError;
use crate::files::record;
use crate::ids::RoundId;
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
    let stamp = |at| state.zone.stamp(at);
    let table = record::table(&found.record, &found.entries, &stamp);
    Ok(Attachment::csv(format!("moderation-{id}.csv"), &table)?.into_response())
}
