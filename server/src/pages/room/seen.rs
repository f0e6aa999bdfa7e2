//! The teacher's tick: I was at this bench.

use axum::extract::{Path, State};
use axum::response::Redirect;

use super::back;
use crate::db::{bench, class_set, seen};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Sets the tick or takes it away, as the form says.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let pairs = &form.pairs;
    let is_still = !pairs.get("still").is_empty();
    let mut db = state.reader(&form.by).await?;
    let class_set = class_set::get(&mut db, id).await?;
    let bench = bench::find(&mut db, id, pairs.get("bench")).await?;
    drop(db);
    let bench = bench.ok_or(AppError::NotFound(
        "There is no bench with this letter in this class set.",
    ))?;
    if !class_set.is_live {
        return Ok(back(id, false, ""));
    }
    // The version on the screen; it is only missing from a form of no page.
    let version = pairs.get("version").parse().unwrap_or(bench.version);
    let is_seen = match pairs.get("seen") {
        "on" => true,
        "off" => false,
        _ => {
            return Err(AppError::BadRequest(
                "A bench is seen or not. Nothing was changed.",
            ));
        }
    };
    let (by, at) = (form.by.staff_id, state.clock.now());
    let tell = state.changes.announcing(id);
    let write = state.store.writer().run_and_tell(tell, move |db| {
        Box::pin(async move {
            if is_seen {
                seen::update(db, bench.id, version, by, at).await
            } else {
                seen::delete(db, bench.id).await
            }
        })
    });
    write.await?;
    Ok(back(id, is_still, &format!("#bench-{}", bench.label)))
}
