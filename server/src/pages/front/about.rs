//! About these pages.

use axum::response::IntoResponse;

use crate::layout::{Layout, Page};
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "front/about.html")]
struct AboutPage {
    layout: Layout,
}

/// What the pages are for, and what they are not for.
pub(super) async fn get(state: AppState) -> impl IntoResponse {
    Page(AboutPage {
        layout: Layout::public(state.say),
    })
}
