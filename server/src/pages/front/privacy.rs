//! The two pages that anybody may read: what is kept about a pupil, and what
//! these pages are for.

use axum::response::IntoResponse;

use crate::db::department;
use crate::web::error::AppError;
use crate::web::layout::{Layout, Page};
use crate::web::state::AppState;

#[derive(askama::Template)]
#[template(path = "front/privacy.html")]
struct PrivacyPage {
    layout: Layout,
    /// Whether the day below is that of the one department there is.
    is_one: bool,
    /// Until when the register holds initials, spelt out; `None`: it holds
    /// none.
    initials_until: Option<String>,
}

/// Shows what is kept about a pupil, in words that a pupil can read. Nobody is
/// asked which department is theirs: where there are several, what any of them
/// keeps is told, and the latest day.
pub(super) async fn get(state: AppState) -> Result<impl IntoResponse, AppError> {
    let today = state.zone.date(state.clock.now());
    let departments = state.store.door().await?.list().await?;
    let is_one = departments.len() == 1;
    let mut latest = None;
    for id in departments {
        let department = department::get(&mut state.store.reader(id).await?).await?;
        if department.keeps_initials_on(today) {
            latest = latest.max(department.initials_until);
        }
    }
    Ok(Page(PrivacyPage {
        layout: Layout::public(state.say),
        is_one,
        initials_until: latest.map(|until| state.say.date(&until)),
    }))
}

#[derive(askama::Template)]
#[template(path = "front/about.html")]
struct AboutPage {
    layout: Layout,
}

/// Shows what the pages are for, and what they are not for.
pub(super) async fn about(state: AppState) -> impl IntoResponse {
    Page(AboutPage {
        layout: Layout::public(state.say),
    })
}
