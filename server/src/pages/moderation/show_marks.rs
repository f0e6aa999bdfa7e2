//! Showing everyone's marks: from then on they stand as they are.

use axum::extract::Path;

use crate::acts::{NotShown, ShowMarks, Shown};
use crate::db::round_sheet::Kind;
use crate::error::{AppError, Reply};
use crate::ids::RoundId;
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;

const ANOTHER_PAGE: AppError = AppError::BadRequest(
    "The round has gone on since this page was opened, and other sheets are being marked now. Nothing was shown. Open the page again and look.",
);

/// Shows the marks of what is being marked: a head of department at any time,
/// a marker of the round once all have finished.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let kind = match form.pairs.get("kind") {
        "" => None,
        code => Some(Kind::from_code(code).ok_or(ANOTHER_PAGE)?),
    };
    let act = ShowMarks {
        round: id,
        kind,
        is_early: form.pairs.get("early") == "yes",
    };
    match state.act(&form.by, act).await? {
        Ok(Shown::Marks(Kind::Anchor)) => go(format!("/moderation/{id}/standard")),
        Ok(Shown::Marks(Kind::Sample) | Shown::Nothing) => go(format!("/moderation/{id}")),
        Err(NotShown::NotAllFinished) => Err(AppError::BadRequest(
            "Not everyone has finished. Nothing was shown.",
        )),
        Err(NotShown::AnotherPage) => Err(ANOTHER_PAGE),
        Err(NotShown::NotAllowed) => Err(AppError::Forbidden(
            "A marker of the round shows the marks once all have finished; before that only a head of department does.",
        )),
    }
}
