//! Writing a ruling on a marking point.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::standard::{self, Refused, hidden};
use crate::acts::{NotRuled, WriteRuling};
use crate::error::{AppError, Reply};
use crate::ids::RoundId;
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;

const LONG: &str = "Use at most 2000 characters.";
const NEWER: &str = "This ruling was changed while you wrote. Yours is not kept yet: read the one that stands, then keep yours in its place or put both together.";

/// Keeps a ruling; a blank one takes the one before away. Where another ruling
/// has come since the page was opened, both are shown and nothing is kept.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let key: i64 = form.pairs.get("point").parse().unwrap_or(0);
    let text = form.pairs.text("ruling");
    let act = WriteRuling {
        round: id,
        key,
        body: text.clone(),
        // A form without it has seen none.
        seen: form.pairs.get("seen").parse().ok().filter(|id| *id != 0),
    };
    let (status, reason) = match state.act(&form.by, act).await? {
        Ok(()) => return go(format!("/moderation/{id}/standard#point-{key}")),
        Err(NotRuled::Hidden(why)) => return Err(hidden(why)),
        Err(NotRuled::Closed) => {
            return Err(AppError::Forbidden(
                "The round is closed. A new ruling belongs to a new round.",
            ));
        }
        Err(NotRuled::NoSuchPoint) => {
            return Err(AppError::NotFound("There is no such marking point."));
        }
        Err(NotRuled::Long) => (StatusCode::UNPROCESSABLE_ENTITY, LONG),
        Err(NotRuled::Newer) => (StatusCode::CONFLICT, NEWER),
    };
    let refused = Refused { key, text, reason };
    let page = standard::page(&state, form.by, id, Some(refused)).await?;
    Ok((status, page).into_response())
}
