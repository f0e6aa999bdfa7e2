//! Where pupils come in: a class code, a bench, its come-back number. And the
//! two pages that anybody may read.

mod at_bench;
pub mod benches;
pub mod come_back;
pub mod join;
pub mod leave;
pub mod welcome;

use axum::extract::State;
use axum::response::IntoResponse;

pub use at_bench::AtBench;

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
///
/// # Errors
/// When the data file fails.
pub async fn privacy(State(state): State<AppState>) -> Result<impl IntoResponse, AppError> {
    let department =
        department::get(&mut state.store.reader(crate::ids::DEPARTMENT).await?).await?;
    let keeps_initials = department.keeps_initials_on(state.zone.date(state.clock.now()));
    let until = department.initials_until.filter(|_| keeps_initials);
    Ok(Page(PrivacyPage {
        layout: Layout::public(),
        initials_until: until.map(|until| long_date(&until)),
    }))
}

#[derive(askama::Template)]
#[template(path = "front/about.html")]
struct AboutPage {
    layout: Layout,
}

/// What the pages are for, and what they are not for.
pub async fn about() -> impl IntoResponse {
    Page(AboutPage {
        layout: Layout::public(),
    })
}
