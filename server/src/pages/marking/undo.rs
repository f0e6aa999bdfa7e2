//! Undoing my newest act: what stood before stands again.

use axum::extract::{Path, State};
use axum::response::Redirect;

use crate::db::mark::{self, Mark, NewMark};
use crate::db::{Error, Writing};
use crate::error::AppError;
use crate::ids::{ClassSetId, StaffId};
use crate::session::StaffForm;
use crate::state::AppState;

/// How undoing ended.
enum Outcome {
    Undone,
    Nothing,
    /// Somebody marked one of the points since.
    Met,
}

/// Undoes the newest act of whoever asks, whole, by marks of its own: history
/// is never rewritten.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let (staff, now) = (form.by.staff_id, state.clock.now());
    let write = state
        .store
        .writer()
        .run(move |db| Box::pin(async move { undo(db, id, staff, now).await }));
    match write.await? {
        Outcome::Undone => Ok(Redirect::to(&back(id, &form))),
        Outcome::Nothing => Err(AppError::BadRequest(
            "You have given no mark in this class set that could be undone.",
        )),
        Outcome::Met => Err(AppError::BadRequest(
            "Somebody else has marked one of these points since, so nothing was undone. Give the marks that you want instead.",
        )),
    }
}

/// The page that the form came from; the overview where it names none of ours.
fn back(id: ClassSetId, form: &StaffForm) -> String {
    let own = format!("/class-sets/{id}/marking");
    let named = form.pairs.get("back");
    let is_plain = named
        .chars()
        .all(|c| c.is_ascii_alphanumeric() || matches!(c, '/' | '-'));
    if named.starts_with(&own) && is_plain {
        named.to_owned()
    } else {
        own
    }
}

async fn undo(
    db: &mut Writing,
    set: ClassSetId,
    staff: StaffId,
    now: i64,
) -> Result<Outcome, Error> {
    let Some(act) = mark::find_newest_act(db, set, staff).await? else {
        return Ok(Outcome::Nothing);
    };
    let marks = mark::list_act(db, &act).await?;
    for mark in &marks {
        let newest = mark::find_given(db, mark.sheet_id, mark.marking_point_id, None).await?;
        if newest.is_some_and(|newest| newest.id != mark.id) {
            return Ok(Outcome::Met);
        }
    }
    let undoing = uuid::Uuid::new_v4().hyphenated().to_string();
    for mark in &marks {
        let before =
            mark::find_given(db, mark.sheet_id, mark.marking_point_id, Some(mark.id)).await?;
        let new = restored(mark, before, &undoing, staff, now);
        mark::insert(db, &new).await?;
    }
    Ok(Outcome::Undone)
}

/// The mark that makes what stood before stand again; one taken back where
/// nothing did.
fn restored(
    undone: &Mark,
    before: Option<Mark>,
    act: &str,
    staff_id: StaffId,
    marked_at: i64,
) -> NewMark {
    let blank = NewMark {
        sheet_id: undone.sheet_id,
        marking_point_id: undone.marking_point_id,
        revision_id: undone.revision_id,
        awarded: None,
        suggested: None,
        reason: String::new(),
        act: act.to_owned(),
        undoes: Some(undone.act.clone()),
        staff_id,
        marked_at,
    };
    match before {
        None => blank,
        Some(before) => NewMark {
            marking_point_id: before.marking_point_id,
            revision_id: before.revision_id,
            awarded: before.awarded,
            suggested: before.suggested,
            reason: before.reason,
            ..blank
        },
    }
}
