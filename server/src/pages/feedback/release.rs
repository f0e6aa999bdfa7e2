//! Releasing marks and feedback to the groups, and taking them back.

use axum::extract::{Path, State};
use axum::response::Redirect;

use crate::db::event::{self, NewEvent};
use crate::db::{class_set, release, scheme};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Releases what there is now, or takes back what is out. Both are on record,
/// as a release and as an event.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let is_out = match form.pairs.get("release") {
        "out" => true,
        "back" => false,
        _ => {
            return Err(AppError::BadRequest(
                "Marks are released or taken back. Nothing was changed.",
            ));
        }
    };
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            let class_set = class_set::get(db, id).await?;
            let version = scheme::get_of_class_set(db, &class_set).await?;
            release::insert(db, id, version, is_out, by, now).await?;
            let done = NewEvent {
                at: now,
                what: if is_out {
                    "marks_released"
                } else {
                    "marks_taken_back"
                },
                staff_id: Some(by),
                class_set_id: Some(id),
                detail: "",
            };
            event::insert(db, &done).await
        })
    });
    write.await?;
    Ok(Redirect::to(&format!("/class-sets/{id}/feedback")))
}
