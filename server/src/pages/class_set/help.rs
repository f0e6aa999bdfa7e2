//! What a class set allows while groups work: its live pages, and what pupils
//! are told before their sheet is marked.

use axum::extract::Path;

use crate::acts::SetHelp;
use crate::db::class_set::LookAgain;
use crate::error::{AppError, Reply};
use crate::form::Pairs;
use crate::ids::ClassSetId;
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;
use crate::words::refusal;

/// One choice of what pupils are told.
#[derive(Debug)]
pub(super) struct Choice {
    pub(super) value: &'static str,
    pub(super) text: &'static str,
    pub(super) is_chosen: bool,
}

/// Each setting in words.
const CHOICES: [(LookAgain, &str); 3] = [
    (LookAgain::Nothing, "Nothing until their sheet is marked"),
    (
        LookAgain::Step,
        "Point to the step: which figure to look at again",
    ),
    (
        LookAgain::Explain,
        "Explain the step: the same, with a question to think about",
    ),
];

/// The choices, with the one that is made.
pub(super) fn choices(made: LookAgain) -> Vec<Choice> {
    let choices = CHOICES.into_iter();
    choices
        .map(|(setting, text)| Choice {
            value: setting.code(),
            text,
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

/// What the form chose.
fn read(pairs: &Pairs) -> Option<(bool, LookAgain)> {
    let is_live = match pairs.get("live") {
        "on" => true,
        "off" => false,
        _ => return None,
    };
    let mut choices = CHOICES.into_iter();
    let chosen = choices.find(|(setting, _)| setting.code() == pairs.get("look_again"));
    Some((is_live, chosen?.0))
}
