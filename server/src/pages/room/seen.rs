//! The teacher's tick: I was at this bench.

use axum::extract::Path;

use super::back;
use crate::acts::{NotTicked, TickBench};
use crate::ids::ClassSetId;
use crate::web::error::{AppError, Reply};
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::refusal;

/// Sets the tick or takes it away, as the form says.
pub(super) async fn post(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    let pairs = &form.pairs;
    let is_still = !pairs.get("still").is_empty();
    let is_seen = match pairs.get("seen") {
        "on" => true,
        "off" => false,
        _ => {
            return Err(AppError::BadRequest(refusal::SEEN_UNCHANGED));
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
        Ok(()) => back(id, is_still, &format!("#bench-{label}")),
        Err(NotTicked::NotLive) => back(id, false, ""),
        Err(NotTicked::NoSuchBench) => Err(AppError::NotFound(refusal::NO_BENCH)),
    }
}
