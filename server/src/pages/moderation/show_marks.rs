//! Showing everyone's marks: from then on they stand as they are.

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Redirect, Response};

use super::to_do::{Work, being_marked};
use crate::db::event::{self, NewEvent};
use crate::db::round::{self, Step};
use crate::db::round_sheet::{self, Kind};
use crate::db::{Error, Writing};
use crate::error::AppError;
use crate::ids::{RoundId, StaffId};
use crate::session::StaffForm;
use crate::state::AppState;

/// What came of it.
enum Outcome {
    Shown(Kind),
    /// Nothing is being marked.
    NothingToShow,
    /// Some have not finished, and it was not said that this is meant.
    NotAllFinished,
    /// The page that was pressed showed something else being marked.
    AnotherPage,
    /// Not for this person.
    NotAllowed,
}

/// Shows the marks of what is being marked: a head of department at any time,
/// a marker of the round once all have finished.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<RoundId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let is_head = form.by.is_head();
    let asked = Asked {
        by,
        is_head,
        kind: form.pairs.get("kind").to_owned(),
        is_early: form.pairs.get("early") == "yes",
    };
    let show = state
        .store
        .writer()
        .run(move |db| Box::pin(async move { show(db, id, &asked, now).await }));
    match show.await? {
        Outcome::Shown(Kind::Anchor) => {
            Ok(Redirect::to(&format!("/moderation/{id}/standard")).into_response())
        }
        Outcome::Shown(Kind::Sample) | Outcome::NothingToShow => {
            Ok(Redirect::to(&format!("/moderation/{id}")).into_response())
        }
        Outcome::NotAllFinished => Err(AppError::BadRequest(
            "Not everyone has finished. Nothing was shown.",
        )),
        Outcome::AnotherPage => Err(AppError::BadRequest(
            "The round has gone on since this page was opened, and other sheets are being marked now. Nothing was shown. Open the page again and look.",
        )),
        Outcome::NotAllowed => Err(AppError::Forbidden(
            "A marker of the round shows the marks once all have finished; before that only a head of department does.",
        )),
    }
}

/// What somebody asked for by pressing the button.
struct Asked {
    by: StaffId,
    is_head: bool,
    /// What the page said is being marked, as the form sends it.
    kind: String,
    /// Whether it was said that showing before all have finished is meant.
    is_early: bool,
}

impl Asked {
    /// Whether the page was about something else: an old one still tells of
    /// the anchors when the sample is drawn, and what is shown stays shown.
    fn is_about_another(&self, kind: Kind) -> bool {
        !self.kind.is_empty() && self.kind != kind.code()
    }
}

async fn show(db: &mut Writing, id: RoundId, asked: &Asked, now: i64) -> Result<Outcome, Error> {
    let by = asked.by;
    let round = round::get(db, id).await?;
    let Some(kind) = being_marked(round.step) else {
        return Ok(Outcome::NothingToShow);
    };
    let progress = round_sheet::list_progress(db, id, None).await?;
    let work = Work::of(&progress, kind);
    if !asked.is_head && (work.find(by).is_none() || !work.is_complete()) {
        return Ok(Outcome::NotAllowed);
    }
    if asked.is_about_another(kind) {
        return Ok(Outcome::AnotherPage);
    }
    if !work.is_complete() && !asked.is_early {
        return Ok(Outcome::NotAllFinished);
    }
    let (step, what) = match kind {
        Kind::Anchor => (Step::StandardShown, "standard_shown"),
        Kind::Sample => (Step::Shown, "second_marks_shown"),
    };
    round::insert_step(db, id, step, by, now).await?;
    let unfinished = work.unfinished();
    let detail = if unfinished.is_empty() {
        format!("round {id}, all had finished")
    } else {
        format!(
            "round {id}, before these had finished: {}",
            unfinished.join(", ")
        )
    };
    let done = NewEvent {
        at: now,
        what,
        staff_id: Some(by),
        class_set_id: None,
        detail: &detail,
    };
    event::insert(db, &done).await?;
    Ok(Outcome::Shown(kind))
}
