//! A note on a sheet, a row or a step.

use axum::extract::Path;

use super::show::{self, ReasonTyped};
use crate::ids::ClassSetId;
use crate::pages::note::TypedNote;
use crate::web::error::Reply;
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;

/// Keeps a note.
pub(super) async fn post(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let mut note = TypedNote::read(&form.pairs);
    if let Err(why) = state.act(&form.by, note.act(id, &label, false)).await? {
        note.refuse(why).ok_or(show::NO_SUCH_BENCH)?;
        let report = show::find(&state, &form.by, id, &label, None).await?;
        let reason = None;
        let page = show::page(&state, form.by.layout, report, ReasonTyped { note, reason })?;
        return page.refused();
    }
    go(format!("/class-sets/{id}/sheets/{label}#notes"))
}
