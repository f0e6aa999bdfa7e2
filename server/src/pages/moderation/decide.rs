//! Deciding which mark holds on a point or a sheet, and having a point or a
//! whole class marked again.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::settle::{self, CHOOSE, Form, RefusedSettlement, hidden};
use crate::acts::{Holds, MarkAgain, NotSettled, Settle};
use crate::ids::{ClassSetId, MarkId, RoundId, RoundSheetId, SettlementId};
use crate::web::error::{AppError, Reply};
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::moderation;
use crate::words::refusal;

/// As which a form sends every point.
const ALL: &str = "all";

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
    let refused = RefusedSettlement {
        form: which,
        chosen: pairs.get("marks").to_owned(),
        reason: pairs.get("reason").to_owned(),
        sentence: sentence(why)?,
    };
    let status = match why {
        NotSettled::Met => StatusCode::CONFLICT,
        _ => StatusCode::UNPROCESSABLE_ENTITY,
    };
    let page = settle::page(&state, form.by, id, Some(refused)).await?;
    Ok((status, page).into_response())
}

/// Decides that a class is marked again, or with `back` that it is not after
/// all. Where somebody was faster, their decision stays: it is on the page.
pub(super) async fn again(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let pairs = &form.pairs;
    let on_page = SettlementId(pairs.seen("seen").unwrap_or(0));
    let act = MarkAgain {
        round: id,
        // What is no number is no class of the round, and no point.
        class_set: ClassSetId(pairs.get("class_set").parse().unwrap_or(0)),
        point: match pairs.get("point") {
            ALL => None,
            typed => Some(typed.parse().unwrap_or(0)),
        },
        reason: pairs.text("reason"),
        takes_back: (pairs.get("back") == "yes").then_some(on_page),
    };
    let sentence = match state.act(&form.by, act).await? {
        Ok(()) | Err(NotSettled::Met) => return go(format!("/moderation/{id}/settle#again")),
        Err(NotSettled::NoSuchPoint) => moderation::POINT_OR_ALL,
        Err(why) => sentence(why)?,
    };
    let refused = RefusedSettlement {
        form: Form::Again {
            class_set: pairs.get("class_set").to_owned(),
        },
        chosen: pairs.get("point").to_owned(),
        reason: pairs.get("reason").to_owned(),
        sentence,
    };
    let page = settle::page(&state, form.by, id, Some(refused)).await?;
    page.refused()
}

/// Says what is wrong with a form, beside it. What is not wrong with the form
/// is an error of its own.
fn sentence(why: NotSettled) -> Result<&'static str, AppError> {
    Ok(match why {
        NotSettled::Hidden(why) => return Err(hidden(why)),
        NotSettled::Closed => {
            return Err(AppError::Forbidden(moderation::ROUND_CLOSED));
        }
        NotSettled::NoSuchSheet => {
            return Err(AppError::NotFound(moderation::NO_SHEET_OF_YOURS));
        }
        NotSettled::NoSuchClass => moderation::WHICH_CLASS,
        NotSettled::NoSuchPoint => moderation::NO_FIRST_MARK,
        NotSettled::NoSuchMarks => CHOOSE,
        NotSettled::NoReason => moderation::WHY,
        NotSettled::LongReason => refusal::AT_MOST_800,
        NotSettled::Met => moderation::SETTLING_MET,
    })
}
