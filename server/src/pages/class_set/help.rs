//! What a class set allows while groups work: its live pages, and what pupils
//! are told before their sheet is marked; closing it and opening it again.

use axum::extract::Path;

use crate::acts::SetHelp;
use crate::acts::SetState;
use crate::db::class_set;
use crate::db::class_set::LookAgain;
use crate::ids::ClassSetId;
use crate::web::error::{AppError, Reply};
use crate::web::form::Pairs;
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words;
use crate::words::refusal;

/// One choice of what pupils are told.
#[derive(Debug)]
pub(super) struct Choice {
    pub(super) value: &'static str,
    pub(super) text: &'static str,
    pub(super) is_chosen: bool,
}

/// Returns the choices, with the one that is made.
pub(super) fn choices(made: LookAgain) -> Vec<Choice> {
    let choices = LookAgain::ALL.into_iter();
    choices
        .map(|setting| Choice {
            value: setting.code(),
            text: words::look_again(setting.code()),
            is_chosen: setting == made,
        })
        .collect()
}

/// Sets both.
pub(super) async fn post(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    let (is_live, look_again) =
        read(&form.pairs).ok_or(AppError::BadRequest(refusal::HELP_UNCHANGED))?;
    let act = SetHelp {
        class_set: id,
        is_live,
        look_again,
    };
    state.act(&form.by, act).await?;
    go(format!("/class-sets/{id}#help"))
}

/// Returns what the form chose.
fn read(pairs: &Pairs) -> Option<(bool, LookAgain)> {
    let is_live = match pairs.get("live") {
        "on" => true,
        "off" => false,
        _ => return None,
    };
    Some((is_live, LookAgain::from_code(pairs.get("look_again"))?))
}

/// Sets the state that the form names.
pub(super) async fn set_state(
    state: AppState,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Reply {
    let new = match form.pairs.get("state") {
        "open" => class_set::State::Open,
        "closed" => class_set::State::Closed,
        _ => {
            return Err(AppError::BadRequest(refusal::STATE_UNCHANGED));
        }
    };
    let act = SetState {
        class_set: id,
        state: new,
    };
    state.act(&form.by, act).await?;
    go(format!("/class-sets/{id}"))
}
