//! The front page: one box, for the lesson code.

use axum::response::IntoResponse;

use crate::layout::{Layout, Page};
use crate::state::AppState;

/// The page, also as it comes back after a code that is none.
#[derive(askama::Template)]
#[template(path = "front/welcome.html")]
pub(super) struct WelcomePage {
    pub(super) layout: Layout,
    /// The code as typed.
    pub(super) code: String,
    pub(super) wrong: Option<String>,
}

/// Asks for the lesson code.
pub(super) async fn get(state: AppState) -> impl IntoResponse {
    Page(WelcomePage {
        layout: Layout::public(state.say),
        code: String::new(),
        wrong: None,
    })
}
