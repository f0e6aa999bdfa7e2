//! Choosing what a class set is marked with.

use axum::extract::{Path, State};
use axum::response::Redirect;

use super::find;
use crate::db::class_set;
use crate::db::event::{self, NewEvent};
use crate::db::scheme;
use crate::error::AppError;
use crate::ids::{ClassSetId, SchemeVersionId};
use crate::session::StaffForm;
use crate::state::AppState;

/// Sets the scheme: any of the method while nothing is marked, afterwards only
/// a newer version of the same, since marks are of its points.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let report = find(&state, id).await?;
    let version = form.pairs.get("version").parse().map(SchemeVersionId);
    let version = version.map_err(|_| AppError::BadRequest("Choose a scheme from the list."))?;
    let chosen = scheme::get_version(&mut state.reader(&form.by).await?, version).await?;
    let is_newer =
        chosen.scheme_id == report.version.scheme_id && chosen.number > report.version.number;
    if chosen.method != report.class.class_set.method || (report.is_begun() && !is_newer) {
        return Err(AppError::BadRequest(
            "Marks have been given by another scheme, and are of its points. Only a newer version of the same scheme can be used now.",
        ));
    }
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            class_set::update_scheme(db, id, version).await?;
            let done = NewEvent {
                at: now,
                what: "scheme_chosen",
                staff_id: Some(by),
                class_set_id: Some(id),
                detail: &format!("{}, version {}", chosen.name, chosen.number),
            };
            event::insert(db, &done).await
        })
    });
    write.await?;
    Ok(Redirect::to(&format!("/class-sets/{id}/marking")))
}
