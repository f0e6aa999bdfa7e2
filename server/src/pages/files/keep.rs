//! Keeping what a preview showed.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::import::{preview, refused};
use super::plan::Plan;
use super::preview::Carried;
use super::stored::Stored;
use super::upload::Upload;
use crate::db::import::{self, GroupWork, Import, Outcome};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::state::AppState;

/// Keeps the groups that are ticked: all of them, or none where one of them
/// has changed since the preview.
///
/// # Errors
/// Not found for an unknown class set; refused for a form that carries no
/// file.
pub async fn post(
    State(state): State<AppState>,
    Path(id): Path<i64>,
    upload: Upload,
) -> Result<Response, AppError> {
    let Upload { by, pairs, .. } = upload;
    let carried = Carried::read(&pairs).ok_or(AppError::BadRequest(
        "The readings did not come with this form. Nothing was kept: choose the file again.",
    ))?;
    let stored = Stored::load(&mut *state.store.reader().await?, ClassSetId(id)).await?;
    let plan = match Plan::of(carried.file.as_bytes(), &stored) {
        Ok(plan) => plan,
        Err(refusal) => return Ok(refused(by.layout, stored, refusal)),
    };
    let groups = chosen(&plan, &carried);
    if groups.is_empty() {
        let notice = "No group is ticked, so nothing was kept.".to_owned();
        let status = StatusCode::UNPROCESSABLE_ENTITY;
        return preview(by.layout, stored, plan, &carried, status, Some(notice));
    }
    let new = Import {
        class_set_id: stored.class_set.id,
        groups,
        staff_id: by.staff_id,
        at: state.clock.now(),
    };
    let write = state.store.writer();
    let outcome = write.run(move |db| Box::pin(async move { import::store(db, &new).await }));
    match outcome.await? {
        Outcome::Kept => {
            Ok(Redirect::to(&format!("/class-sets/{id}/files#taken-in")).into_response())
        }
        Outcome::Conflict(labels) => {
            let stored = Stored::load(&mut *state.store.reader().await?, ClassSetId(id)).await?;
            let plan = match Plan::of(carried.file.as_bytes(), &stored) {
                Ok(plan) => plan,
                Err(refusal) => return Ok(refused(by.layout, stored, refusal)),
            };
            let notice = changed_meanwhile(&labels);
            let status = StatusCode::CONFLICT;
            preview(by.layout, stored, plan, &carried, status, Some(notice))
        }
    }
}

/// The work of the groups that are ticked. A group that has stored just this
/// meanwhile is among them, so that a form sent twice is known to be done.
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

fn changed_meanwhile(labels: &[String]) -> String {
    format!(
        "Something else was stored since you opened this preview: by group{} {}. Nothing was kept. Look at what differs now, and press the button again.",
        if labels.len() > 1 { "s" } else { "" },
        labels.join(", ")
    )
}
