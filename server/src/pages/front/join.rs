//! From a lesson code to its benches.

use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::welcome::WelcomePage;
use crate::error::Reply;
use crate::form::Pairs;
use crate::layout::{Layout, Page, go};
use crate::state::AppState;

/// Looks the code up. Spaces, hyphens and small letters do not matter.
pub(super) async fn post(state: AppState, pairs: Pairs) -> Reply {
    let typed = pairs.get("code");
    let code: String = typed
        .chars()
        .filter(char::is_ascii_alphabetic)
        .take(6)
        .collect::<String>()
        .to_uppercase();
    let found = state.store.door().await?.find_by_code(&code).await?;
    if found.is_some() {
        return go(format!("/c/{code}"));
    }
    let wrong = if typed.trim().is_empty() {
        state.say.join_empty()
    } else {
        state.say.join_no_such_code()
    };
    let page = WelcomePage {
        layout: Layout::public(state.say),
        code: typed.to_owned(),
        wrong: Some(wrong),
    };
    Ok((StatusCode::UNPROCESSABLE_ENTITY, Page(page)).into_response())
}
