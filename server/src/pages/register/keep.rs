//! Keeping a register that was typed.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::civil::Date;

use super::lines::{Days, Wrong, check};
use super::show;
use super::typed::Typed;
use crate::db::Error;
use crate::db::event::{self, NewEvent};
use crate::db::register::{self, Line, Outcome};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// What is said where two people wrote at once.
const STALE: &str = "Somebody else has changed this register since you opened it, so yours is not kept yet. What you typed is still below. Look at theirs in another window; if yours should stand, press the button again.";

/// Keeps the whole register.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let set = show::load(&state, id).await?;
    let typed = Typed::read(&form.pairs, &set.benches);
    let now = state.clock.now();
    let today = state.zone.date(now);
    let lesson = set.class_set.held_on.parse::<Date>();
    let days = Days {
        lesson: lesson.unwrap_or(today),
        today,
    };
    let lines = match check(&typed, &set, days) {
        Ok(lines) => lines,
        Err(wrong) => {
            let page = show::page(&state, form.by.layout, set, typed, wrong, None)?;
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
    };
    let (seen, by) = (form.pairs.get("seen").to_owned(), form.by.staff_id);
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            let outcome = register::update(db, id, &lines, &seen, today).await?;
            if outcome == Outcome::Changed {
                let what = NewEvent {
                    at: now,
                    what: "register_kept",
                    staff_id: Some(by),
                    class_set_id: Some(id),
                    detail: &counts(&lines),
                };
                event::insert(db, &what).await?;
            }
            Ok::<_, Error>(outcome)
        })
    });
    if write.await? == Outcome::Stale {
        let set = show::load(&state, id).await?;
        let wrong = Wrong::default();
        let page = show::page(&state, form.by.layout, set, typed, wrong, Some(STALE))?;
        return Ok((StatusCode::CONFLICT, page).into_response());
    }
    Ok(Redirect::to(&format!("/class-sets/{id}/register")).into_response())
}

/// Numbers alone: an event is for ever, and initials are not.
fn counts(lines: &[Line]) -> String {
    let present = lines.iter().filter(|line| line.was_present).count();
    let caught_up = lines.iter().filter(|line| line.caught_up_on.is_some());
    format!(
        "present {present}, absent {}, caught up {}",
        lines.len() - present,
        caught_up.count()
    )
}
