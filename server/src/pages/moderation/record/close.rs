//! Closing a round.

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Redirect, Response};

use crate::error::AppError;
use crate::ids::RoundId;
use crate::report::moderation::record::{Closing, close};
use crate::session::StaffForm;
use crate::state::AppState;

/// Closes the round and makes its record. A round that is closed already
/// stays as it is.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<RoundId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let (by, now) = (form.by.staff_id, state.clock.now());
    let although_pending = form.pairs.get("pending") == "yes";
    let write = state
        .store
        .writer()
        .run(move |db| Box::pin(async move { close(db, id, by, although_pending, now).await }));
    match write.await? {
        Closing::Closed => Ok(Redirect::to(&format!("/moderation/{id}/record")).into_response()),
        Closing::NotNow => Ok(Redirect::to(&format!("/moderation/{id}")).into_response()),
        Closing::Open(_) => Err(AppError::BadRequest(
            "Some sheets have differences to settle first, so the round was not closed.",
        )),
        Closing::Pending => Err(AppError::BadRequest(
            "Something is still to be marked. To close the round all the same, tick that you mean it.",
        )),
    }
}
