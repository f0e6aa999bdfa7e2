//! Coming back to a bench from another browser or on another day.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use axum_extra::extract::CookieJar;

use super::AtBench;
use super::benches::{browser_token, held_token};
use crate::db::visit;
use crate::error::AppError;
use crate::form::Pairs;
use crate::layout::{Layout, Page};
use crate::secret::sha256;
use crate::session::{VISIT_COOKIE, cookie};
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "front/come_back.html")]
struct ComeBackPage {
    layout: Layout,
    code: String,
    label: String,
    /// What is wrong with the number that was typed.
    wrong: Option<&'static str>,
}

fn page(at: &AtBench, wrong: Option<&'static str>) -> Page<ComeBackPage> {
    let (code, label) = (at.class_set.join_code.clone(), at.bench.label.clone());
    Page(ComeBackPage {
        layout: Layout::public(),
        code,
        label,
        wrong,
    })
}

/// Asks for the number, and marks the browser so that its tries are its own; a
/// bench that has no number is chosen afresh.
pub(super) async fn get(at: AtBench, cookies: CookieJar) -> Result<Response, AppError> {
    if at.visit.is_some() {
        return Ok(Redirect::to(&at.url()).into_response());
    }
    if at.bench.come_back_hash.is_none() {
        return Ok(Redirect::to(&format!("/c/{}", at.class_set.join_code)).into_response());
    }
    let token = browser_token(&cookies);
    Ok((cookies.add(cookie(VISIT_COOKIE, token)), page(&at, None)).into_response())
}

/// Checks the number. It may be tried as often as [`crate::rate::Rates`] says.
pub(super) async fn post(
    State(state): State<AppState>,
    at: AtBench,
    cookies: CookieJar,
    pairs: Pairs,
) -> Result<Response, AppError> {
    let now = state.clock.now();
    let Some(hash) = at.bench.come_back_hash.clone() else {
        return Ok(Redirect::to(&format!("/c/{}", at.class_set.join_code)).into_response());
    };
    let number: String = pairs
        .get("number")
        .chars()
        .filter(char::is_ascii_digit)
        .take(5)
        .collect();
    if number.len() != 4 {
        let wrong = "The come-back number has four digits. Type all four.";
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page(&at, Some(wrong))).into_response());
    }
    let bench_key = at.bench.id.to_string();
    // Browsers that keep no cookie count as one.
    let browser_key = format!("{bench_key} {}", held_token(&cookies).unwrap_or_default());
    // The browser's own first: once those are used up it takes none from the bench.
    let (by_browser, by_bench) = (
        &state.rates.come_back_by_browser,
        &state.rates.come_back_by_bench,
    );
    if !(by_browser.take(&browser_key, now) && by_bench.take(&bench_key, now)) {
        let wrong = "That was too many tries. Wait a minute, or ask your teacher for a new number.";
        return Ok((StatusCode::TOO_MANY_REQUESTS, page(&at, Some(wrong))).into_response());
    }
    if !state.passwords.is_right(number, Some(hash)).await? {
        let wrong = "That is not this bench’s number. Check it, or ask your teacher for a new one.";
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page(&at, Some(wrong))).into_response());
    }
    // The bench's is not forgiven: what others guessed was not right.
    by_browser.forgive(&browser_key);
    let token = browser_token(&cookies);
    let (hash, bench) = (sha256(&token), at.bench.id);
    state
        .store
        .writer()
        .run_and_tell(state.changes.announcing(at.class_set.id), move |db| {
            Box::pin(async move { visit::insert(db, &hash, bench, now).await })
        })
        .await?;
    Ok((
        cookies.add(cookie(VISIT_COOKIE, token)),
        Redirect::to(&at.url()),
    )
        .into_response())
}
