//! Where pupils come in: a class code, a bench, its come-back number. And the
//! two pages that anybody may read.

mod at_bench;
pub mod benches;
pub mod come_back;
pub mod join;
pub mod leave;
pub mod welcome;

use axum::response::IntoResponse;

pub use at_bench::AtBench;

use crate::layout::{Layout, Page};

#[derive(askama::Template)]
#[template(path = "front/privacy.html")]
struct PrivacyPage {
    layout: Layout,
}

/// What is kept about a pupil, in words that a pupil can read.
pub async fn privacy() -> impl IntoResponse {
    Page(PrivacyPage {
        layout: Layout::public(),
    })
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
