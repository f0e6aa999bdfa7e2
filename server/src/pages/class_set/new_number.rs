//! For a group that has lost its come-back number.

use axum::extract::{Path, State};
use axum::response::Redirect;

use crate::db::bench;
use crate::db::event::{self, NewEvent};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Takes the bench's number away: whoever chooses the bench next gets a new
/// one. Browsers that are at the bench already stay there.
///
/// # Errors
/// Not found for an unknown class set or bench.
pub async fn post(
    State(state): State<AppState>,
    Path((id, label)): Path<(i64, String)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let (id, now, by) = (ClassSetId(id), state.clock.now(), form.by.staff_id);
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            bench::delete_come_back(db, id, &label).await?;
            let done = NewEvent {
                at: now,
                what: "number_taken_away",
                staff_id: Some(by),
                class_set_id: Some(id),
                detail: &label,
            };
            event::insert(db, &done).await
        })
    });
    write.await?;
    Ok(Redirect::to(&format!("/class-sets/{id}")))
}
