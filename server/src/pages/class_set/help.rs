//! What a class set allows while groups work: its live pages, and what pupils
//! are told before their sheet is marked.

use axum::extract::{Path, State};
use axum::response::Redirect;

use crate::db::class_set::{self, LookAgain};
use crate::db::event::{self, NewEvent};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// One choice of what pupils are told.
#[derive(Debug)]
pub(super) struct Choice {
    pub(super) value: &'static str,
    pub(super) text: &'static str,
    pub(super) is_chosen: bool,
}

/// Each setting with its name in the form and in words.
const CHOICES: [(LookAgain, &str, &str); 3] = [
    (
        LookAgain::Nothing,
        "nothing",
        "Nothing until their sheet is marked",
    ),
    (
        LookAgain::Step,
        "step",
        "Point to the step: which figure to look at again",
    ),
    (
        LookAgain::Explain,
        "explain",
        "Explain the step: the same, with a question to think about",
    ),
];

/// The choices, with the one that is made.
pub(super) fn choices(made: LookAgain) -> Vec<Choice> {
    let choices = CHOICES.into_iter();
    choices
        .map(|(setting, value, text)| Choice {
            value,
            text,
            is_chosen: setting == made,
        })
        .collect()
}

/// Sets both.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let (is_live, look_again, detail) = read(&form.pairs).ok_or(AppError::BadRequest(
        "Choose whether the live pages are on, and what pupils are told. Nothing was changed.",
    ))?;
    let (at, by) = (state.clock.now(), form.by.staff_id);
    let tell = state.changes.announcing(id);
    let write = state.store.writer().run_and_tell(tell, move |db| {
        Box::pin(async move {
            class_set::update_help(db, id, is_live, look_again).await?;
            let done = NewEvent {
                at,
                what: "help_set",
                staff_id: Some(by),
                class_set_id: Some(id),
                detail: &detail,
            };
            event::insert(db, &done).await
        })
    });
    write.await?;
    Ok(Redirect::to(&format!("/class-sets/{id}#help")))
}

/// What the form chose, and the same for the record.
fn read(pairs: &Pairs) -> Option<(bool, LookAgain, String)> {
    let live = pairs.get("live");
    let is_live = match live {
        "on" => true,
        "off" => false,
        _ => return None,
    };
    let named = |(_, value, _): &&(LookAgain, &str, &str)| *value == pairs.get("look_again");
    let (look_again, value, _) = CHOICES.iter().find(named)?;
    let detail = format!("live pages {live}, look again: {value}");
    Some((is_live, *look_again, detail))
}
