//! Writing a ruling on a marking point.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::standard::{self, Refused};
use crate::db::event::{self, NewEvent};
use crate::db::round::{self, Step};
use crate::db::ruling::{self, NewRuling};
use crate::db::{Error, Writing};
use crate::error::AppError;
use crate::ids::RoundId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Longest ruling, in characters.
const LONGEST: usize = 2000;

const CLOSED: AppError =
    AppError::Forbidden("The round is closed. A new ruling belongs to a new round.");

/// What came of it.
enum Outcome {
    Kept,
    /// Another ruling stands than the one that was on the page.
    Newer,
    Closed,
}

/// Keeps a ruling; a blank one takes the one before away. Where another ruling
/// has come since the page was opened, both are shown and nothing is kept.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<RoundId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let mut db = state.reader(&form.by).await?;
    let round = round::get(&mut db, id).await?;
    let found = standard::find(&mut db, &form.by, &round).await?;
    drop(db);
    if round.step == Some(Step::Closed) {
        return Err(CLOSED);
    }
    let key: i64 = form.pairs.get("point").parse().unwrap_or(0);
    let mut points = found.points.iter();
    let point = points
        .find(|point| point.point.key == key)
        .ok_or(AppError::NotFound("There is no such marking point."))?;
    // Browsers count a line's end once and send it as two characters.
    let body = form.pairs.trimmed("ruling").replace("\r\n", "\n");
    let to = format!("/moderation/{id}/standard#point-{key}");
    let stands = point
        .ruling
        .as_ref()
        .map_or("", |ruling| ruling.body.as_str());
    if body == stands {
        return Ok(Redirect::to(&to).into_response());
    }
    let refused = Refused {
        key,
        text: body.clone(),
        reason: "Use at most 2000 characters.",
    };
    if body.chars().count() > LONGEST {
        let page = standard::page(&state, form.by, id, Some(refused)).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    // A form without it has seen none.
    let seen = form.pairs.get("seen").parse().ok().filter(|id| *id != 0);
    let new = NewRuling {
        round_id: id,
        scheme_id: round.scheme_id,
        point_key: key,
        body,
        staff_id: form.by.staff_id,
        at: state.clock.now(),
    };
    let write = state
        .store
        .writer()
        .run(move |db| Box::pin(async move { keep(db, &new, seen).await }));
    match write.await? {
        Outcome::Kept => Ok(Redirect::to(&to).into_response()),
        Outcome::Closed => Err(CLOSED),
        Outcome::Newer => {
            let refused = Refused {
                reason: "This ruling was changed while you wrote. Yours is not kept yet: read the one that stands, then keep yours in its place or put both together.",
                ..refused
            };
            let page = standard::page(&state, form.by, id, Some(refused)).await?;
            Ok((StatusCode::CONFLICT, page).into_response())
        }
    }
}

/// Adds a ruling where the one that was seen (`None`: none) still stands.
async fn keep(db: &mut Writing, new: &NewRuling, seen: Option<i64>) -> Result<Outcome, Error> {
    let round = round::get(db, new.round_id).await?;
    if round.step == Some(Step::Closed) {
        return Ok(Outcome::Closed);
    }
    let standing = ruling::list_standing(db, new.scheme_id).await?;
    let mut standing = standing.iter();
    let stands = standing.find(|ruling| ruling.point_key == new.point_key);
    if stands.map(|ruling| ruling.id) != seen {
        return Ok(Outcome::Newer);
    }
    ruling::insert(db, new).await?;
    let done = NewEvent {
        at: new.at,
        what: "ruling_written",
        staff_id: Some(new.staff_id),
        class_set_id: None,
        detail: &format!("round {}, point {}", new.round_id, new.point_key),
    };
    event::insert(db, &done).await?;
    Ok(Outcome::Kept)
}
