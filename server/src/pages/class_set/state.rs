//! Closing a class set and opening it again.

use axum::extract::{Path, State};
use axum::response::Redirect;

use crate::db::class_set::{self, State as SetState};
use crate::db::event::{self, NewEvent};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Sets the state that the form names.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let (new, what) = match form.pairs.get("state") {
        "open" => (SetState::Open, "set_opened"),
        "closed" => (SetState::Closed, "set_closed"),
        _ => {
            return Err(AppError::BadRequest(
                "A class set is open or closed. Nothing was changed.",
            ));
        }
    };
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let tell = state.changes.announcing(id);
    let write = state.store.writer().run_and_tell(tell, move |db| {
        Box::pin(async move {
            class_set::update_state(db, id, new).await?;
            let done = NewEvent {
                at: now,
                what,
                staff_id: Some(by),
                class_set_id: Some(id),
                detail: "",
            };
            event::insert(db, &done).await
        })
    });
    write.await?;
    Ok(Redirect::to(&format!("/class-sets/{id}")))
}
