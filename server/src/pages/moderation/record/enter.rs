//! Writing to the record of a closed round: what is already there stays.

use axum::extract::Path;

use super::NO_RECORD;
use super::show::{Refused, page};
use crate::acts::{EnterRecord, NotEntered};
use crate::error::Reply;
use crate::ids::RoundId;
use crate::layout::go;
use crate::pages::moderation::settle::BLIND;
use crate::session::StaffForm;
use crate::state::AppState;

/// Keeps a later entry.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let text = form.pairs.text("entry");
    let act = EnterRecord {
        round: id,
        body: text.clone(),
    };
    let sentence = match state.act(&form.by, act).await? {
        Ok(()) => return go(format!("/moderation/{id}/record#entries")),
        Err(NotEntered::NoRecord) => return Err(NO_RECORD),
        Err(NotEntered::Blind) => return Err(BLIND),
        Err(NotEntered::Blank) => "Write down what was found or done.",
        Err(NotEntered::Long) => "Use at most 2000 characters.",
    };
    page(&state, form.by, id, Some(Refused { text, sentence }))
        .await?
        .refused()
}
