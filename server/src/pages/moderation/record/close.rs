//! Closing a round.

use axum::extract::Path;

use crate::acts::{CloseRound, NotClosed};
use crate::error::{AppError, Reply};
use crate::ids::RoundId;
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;

/// Closes the round and makes its record. A round that is closed already
/// stays as it is.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let act = CloseRound {
        round: id,
        although_pending: form.pairs.get("pending") == "yes",
    };
    match state.act(&form.by, act).await? {
        Ok(()) => go(format!("/moderation/{id}/record")),
        Err(NotClosed::NotNow) => go(format!("/moderation/{id}")),
        Err(NotClosed::Open(_)) => Err(AppError::BadRequest(
            "Some sheets have differences to settle first, so the round was not closed.",
        )),
        Err(NotClosed::Pending) => Err(AppError::BadRequest(
            "Something is still to be marked. To close the round all the same, tick that you mean it.",
        )),
    }
}
