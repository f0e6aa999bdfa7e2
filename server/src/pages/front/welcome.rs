//! The front page: one box, for the class code.

use axum::response::IntoResponse;

use crate::layout::{Layout, Page};

/// The page, also as it comes back after a code that is none.
#[derive(askama::Template)]
#[template(path = "front/welcome.html")]
pub(super) struct WelcomePage {
    pub(super) layout: Layout,
    /// The code as typed.
    pub(super) code: String,
    /// What is wrong with it.
    pub(super) wrong: Option<&'static str>,
}

/// Asks for the class code.
pub(super) async fn get() -> impl IntoResponse {
    Page(WelcomePage {
        layout: Layout::public(),
        code: String::new(),
        wrong: None,
    })
}
