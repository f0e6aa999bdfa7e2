//! The teacher's tick: I was at this bench.

use axum::extract::Path;
use axum::response::Redirect;

use super::back;
use crate::acts::{NotTicked, TickBench};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Sets the tick or takes it away, as the form says.
pub(super) async fn post(
    state: AppState,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let pairs = &form.pairs;
    let is_still = !pairs.get("still").is_empty();
    let is_seen = match pairs.get("seen") {
        "on" => true,
        "off" => false,
        _ => {
            return Err(AppError::BadRequest(
                "A bench is seen or not. Nothing was changed.",
            ));
        }
    };
    let label = pairs.get("bench");
    let act = TickBench {
        class_set: id,
        label: label.to_owned(),
        // It is only missing from a form of no page.
        version: pairs.get("version").parse().ok(),
        is_seen,
    };
    match state.act(&form.by, act).await? {
        Ok(()) => Ok(back(id, is_still, &format!("#bench-{label}"))),
        Err(NotTicked::NotLive) => Ok(back(id, false, "")),
        Err(NotTicked::NoSuchBench) => Err(AppError::NotFound(
            "There is no bench with this letter in this class set.",
        )),
    }
}
