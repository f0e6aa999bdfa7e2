//! Deciding which mark holds: on a point of a sheet, or that all first marks
//! of the sheet do.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::{Form, Refused, sentence, show};
use crate::acts::{Holds, NotSettled, Settle};
use crate::error::Reply;
use crate::ids::{MarkId, RoundId, RoundSheetId, SettlementId};
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;

/// Settles one point, or a whole sheet where the form names no point.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let pairs = &form.pairs;
    let sheet = RoundSheetId(pairs.get("sheet").parse().unwrap_or(0));
    let (which, holds) = match pairs.get("point").parse() {
        // What is no number is no mark that a point has.
        Ok(key) => {
            let marks = pairs.get("marks").parse().unwrap_or(-1);
            (Form::Point(sheet, key), Holds::Point(key, marks))
        }
        Err(_) => (Form::Whole(sheet), Holds::Whole),
    };
    let act = Settle {
        round: id,
        sheet,
        holds,
        reason: pairs.text("reason"),
        seen: pairs.seen("seen").map(SettlementId),
        newest: pairs.seen("newest").map(MarkId),
    };
    let Err(why) = state.act(&form.by, act).await? else {
        return go(format!("/moderation/{id}/settle#sheet-{sheet}"));
    };
    let refused = Refused {
        form: which,
        chosen: pairs.get("marks").to_owned(),
        reason: pairs.get("reason").to_owned(),
        sentence: sentence(why)?,
    };
    let status = match why {
        NotSettled::Met => StatusCode::CONFLICT,
        _ => StatusCode::UNPROCESSABLE_ENTITY,
    };
    let page = show::page(&state, form.by, id, Some(refused)).await?;
    Ok((status, page).into_response())
}
