//! What is kept about a pupil.

use axum::extract::State;
use axum::response::IntoResponse;

use crate::clock::long_date;
use crate::db::department;
use crate::error::AppError;
use crate::layout::{Layout, Page};
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "front/privacy.html")]
struct PrivacyPage {
    layout: Layout,
    /// Until when the register holds initials, spelt out; `None`: it holds
    /// none.
    initials_until: Option<String>,
}

/// What is kept about a pupil, in words that a pupil can read.
pub(super) async fn get(State(state): State<AppState>) -> Result<impl IntoResponse, AppError> {
    let department =
        department::get(&mut state.store.reader(crate::ids::DEPARTMENT).await?).await?;
    let keeps_initials = department.keeps_initials_on(state.zone.date(state.clock.now()));
    let until = department.initials_until.filter(|_| keeps_initials);
    Ok(Page(PrivacyPage {
        layout: Layout::public(),
        initials_until: until.map(|until| long_date(&until)),
    }))
}
