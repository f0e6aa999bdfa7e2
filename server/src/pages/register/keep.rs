//! Keeping a register that was typed.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;
use jiff::civil::Date;

use super::lines::{Days, check};
use super::show;
use super::typed::RegisterTyped;
use crate::acts::{KeepRegister, RegisterChanged};
use crate::ids::ClassSetId;
use crate::web::error::Reply;
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::refusal;

/// What is said where two people wrote at once.
const STALE: &str = refusal::REGISTER_MET;

pub(super) async fn post(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    let set = show::load(&state, &form.by, id).await?;
    let mut typed = RegisterTyped::read(&form.pairs, &set.benches);
    let today = state.zone.date(state.clock.now());
    let lesson = set.class_set.held_on.parse::<Date>();
    let days = Days {
        lesson: lesson.unwrap_or(today),
        today,
    };
    let Some(lines) = check(&mut typed, &set, days) else {
        return show::page(&state, &form.by, set, typed, None)?.refused();
    };
    let act = KeepRegister {
        class_set: id,
        lines,
        seen: form.pairs.get("seen").to_owned(),
        today,
    };
    if let Err(RegisterChanged) = state.act(&form.by, act).await? {
        let set = show::load(&state, &form.by, id).await?;
        let page = show::page(&state, &form.by, set, typed, Some(STALE))?;
        return Ok((StatusCode::CONFLICT, page).into_response());
    }
    go(format!("/class-sets/{id}/register"))
}
