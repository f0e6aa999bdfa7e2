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
    let until = initials_until(&state).await?;
    Ok(Page(PrivacyPage {
        layout: Layout::public(),
        initials_until: until.map(|until| long_date(&until)),
    }))
}

/// The last day on which a department of this service keeps initials: who
/// reads the page is of none that is known.
async fn initials_until(state: &AppState) -> Result<Option<String>, AppError> {
    let today = state.zone.date(state.clock.now());
    let departments = state.store.door().await?.list().await?;
    let mut last = None;
    for id in departments {
        let department = department::get(&mut state.store.reader(id).await?).await?;
        if department.keeps_initials_on(today) {
            last = last.max(department.initials_until);
        }
    }
    Ok(last)
}
