//! Having a point marked again for a whole class, or all of the class; and
//! taking that back.

use axum::extract::Path;

use super::{Form, Refused, sentence, show};
use crate::acts::{MarkAgain, NotSettled};
use crate::error::Reply;
use crate::ids::{ClassSetId, RoundId, SettlementId};
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;

/// As which a form sends every point.
pub(super) const ALL: &str = "all";

/// Decides that a class is marked again, or with `back` that it is not after
/// all. Where somebody was faster, their decision stays: it is on the page.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
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
        Err(NotSettled::NoSuchPoint) => "Choose a point, or all of them.",
        Err(why) => sentence(why)?,
    };
    let refused = Refused {
        form: Form::Again {
            class_set: pairs.get("class_set").to_owned(),
        },
        chosen: pairs.get("point").to_owned(),
        reason: pairs.get("reason").to_owned(),
        sentence,
    };
    show::page(&state, form.by, id, Some(refused))
        .await?
        .refused()
}
