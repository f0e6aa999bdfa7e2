//! Writing to the record of a closed round: what is already there stays.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::find;
use super::show::{Refused, page};
use crate::db::event::{self, NewEvent};
use crate::db::moderation_record;
use crate::error::AppError;
use crate::ids::RoundId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Longest entry, in characters.
const LONGEST: usize = 2000;

/// Keeps a later entry.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<RoundId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let mut db = state.reader(&form.by).await?;
    let found = find(&mut db, &form.by, id).await?;
    drop(db);
    let body = form.pairs.trimmed("entry").replace("\r\n", "\n");
    let sentence = match body.chars().count() {
        0 => Some("Write down what was found or done."),
        1..=LONGEST => None,
        _ => Some("Use at most 2000 characters."),
    };
    if let Some(sentence) = sentence {
        let refused = Refused {
            text: body,
            sentence,
        };
        let page = page(&state, form.by, id, Some(refused)).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let to = format!("/moderation/{id}/record#entries");
    // Pressed twice, it is kept once.
    if found.entries.last().is_some_and(|last| last.body == body) {
        return Ok(Redirect::to(&to).into_response());
    }
    let (by, now) = (form.by.staff_id, state.clock.now());
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            moderation_record::insert_entry(db, id, &body, by, now).await?;
            let done = NewEvent {
                at: now,
                what: "record_entry",
                staff_id: Some(by),
                class_set_id: None,
                detail: &format!("round {id}"),
            };
            event::insert(db, &done).await
        })
    });
    write.await?;
    Ok(Redirect::to(&to).into_response())
}
