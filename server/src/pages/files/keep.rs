//! Keeping what a preview showed.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::import::{preview, refused};
use super::plan::Plan;
use super::preview::Carried;
use super::stored::StoredClass;
use super::upload::Upload;
use crate::acts::{GroupWork, ReadingsMet, TakeInReadings};
use crate::ids::ClassSetId;
use crate::off_thread::off_thread;
use crate::web::error::AppError;
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::file;
use crate::words::taking_in;

/// Keeps the groups that are ticked: all of them, or none where one of them
/// has changed since the preview.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    upload: Upload,
) -> Result<Response, AppError> {
    let Upload { by, pairs, .. } = upload;
    let carried = Carried::read(&pairs).ok_or(AppError::BadRequest(file::NO_READINGS_SENT))?;
    let (stored, plan) = match look(&state, &by, id, &carried).await? {
        Ok(seen) => seen,
        Err(page) => return Ok(page),
    };
    let groups = chosen(&plan, &carried);
    if groups.is_empty() {
        let notice = file::NO_GROUP_TICKED.to_owned();
        let status = StatusCode::UNPROCESSABLE_ENTITY;
        return preview(by.layout, stored, plan, &carried, status, Some(notice));
    }
    let act = TakeInReadings {
        class_set: id,
        groups,
    };
    let Err(ReadingsMet(labels)) = state.act(&by, act).await? else {
        let taken_in = format!("/class-sets/{id}/files#taken-in");
        return Ok(Redirect::to(&taken_in).into_response());
    };
    let notice = Some(taking_in::met(&labels));
    match look(&state, &by, id, &carried).await? {
        Ok((stored, plan)) => {
            let status = StatusCode::CONFLICT;
            preview(by.layout, stored, plan, &carried, status, notice)
        }
        Err(page) => Ok(page),
    }
}

/// Returns what is stored, and what the file would do to it; else the page
/// that says why nothing can be taken from it.
async fn look(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
    carried: &Carried,
) -> Result<Result<(StoredClass, Plan), Response>, AppError> {
    let stored = StoredClass::load(&mut state.reader(by).await?, id).await?;
    let file = carried.file.clone();
    let planning = off_thread(move || {
        let plan = Plan::of(file.as_bytes(), &stored);
        (stored, plan)
    });
    let (stored, plan) = planning.await;
    Ok(match plan {
        Ok(plan) => Ok((stored, plan)),
        Err(refusal) => Err(refused(by.layout.clone(), stored, refusal)),
    })
}

/// Returns the work of the groups that are ticked. A group that has stored
/// just this meanwhile is among them, so that a form sent twice is known to be
/// done.
fn chosen(plan: &Plan, carried: &Carried) -> Vec<GroupWork> {
    let is_ticked = |label: &str| carried.ticked.iter().any(|ticked| ticked == label);
    let groups = plan.groups.iter();
    let ticked = groups.filter(|group| group.may_be_taken() && is_ticked(&group.label));
    ticked
        .map(|group| GroupWork {
            label: group.label.clone(),
            entry: group.entry.clone(),
            base: carried.base(&group.label),
        })
        .collect()
}
