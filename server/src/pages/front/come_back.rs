//! Coming back to a bench from another browser or on another day; and leaving
//! it, so that the next pupils at this computer do not meet it.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use axum_extra::extract::CookieJar;

use super::AtBench;
use super::benches::{browser_token, held_token};
use crate::acts::LeaveBench;
use crate::acts::{Anyone, ComeBack};
use crate::secret::sha256;
use crate::web::error::{AppError, Reply};
use crate::web::form::{Pairs, TypedText};
use crate::web::layout::go;
use crate::web::layout::{Layout, Page};
use crate::web::session::{VISIT_COOKIE, cookie};
use crate::web::state::AppState;

#[derive(askama::Template)]
#[template(path = "front/come_back.html")]
struct ComeBackPage {
    layout: Layout,
    code: String,
    label: String,
    /// Blank: what was typed is not given back.
    number: TypedText,
}

fn page(at: &AtBench) -> Page<ComeBackPage> {
    let (code, label) = (at.class_set.join_code.clone(), at.bench.label.clone());
    Page(ComeBackPage {
        layout: Layout::public(at.say),
        code,
        label,
        number: TypedText::default(),
    })
}

/// Shows the page again, with what is wrong with the number.
fn refused(at: &AtBench, status: StatusCode, wrong: String) -> Reply {
    let Page(mut page) = page(at);
    page.number.refuse(wrong);
    Ok((status, Page(page)).into_response())
}

/// Asks for the number, and marks the browser so that its tries are its own; a
/// bench that has no number is chosen afresh.
pub(super) async fn get(at: AtBench, cookies: CookieJar) -> Reply {
    if at.visit.is_some() {
        return Ok(Redirect::to(&at.url()).into_response());
    }
    if at.bench.come_back_hash.is_none() {
        return Ok(Redirect::to(&format!("/c/{}", at.class_set.join_code)).into_response());
    }
    let token = browser_token(&cookies);
    Ok((cookies.add(cookie(VISIT_COOKIE, token)), page(&at)).into_response())
}

/// Checks the number. It may be tried as often as [`crate::rate::Rates`] says.
pub(super) async fn post(state: AppState, at: AtBench, cookies: CookieJar, pairs: Pairs) -> Reply {
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
        return refused(
            &at,
            StatusCode::UNPROCESSABLE_ENTITY,
            at.say.come_back_four(),
        );
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
        return refused(
            &at,
            StatusCode::TOO_MANY_REQUESTS,
            at.say.come_back_too_many(),
        );
    }
    let token = browser_token(&cookies);
    let is_right = state.passwords.is_right(number, Some(hash.clone())).await?;
    if !is_right || !come_back(&state, &at, hash, &token).await? {
        return refused(
            &at,
            StatusCode::UNPROCESSABLE_ENTITY,
            at.say.come_back_wrong(),
        );
    }
    // The bench's is not forgiven: what others guessed was not right.
    by_browser.forgive(&browser_key);
    Ok((
        cookies.add(cookie(VISIT_COOKIE, token)),
        Redirect::to(&at.url()),
    )
        .into_response())
}

/// Starts the visit. False when the bench has another number meanwhile.
async fn come_back(
    state: &AppState,
    at: &AtBench,
    number_hash: String,
    token: &str,
) -> Result<bool, AppError> {
    let act = ComeBack {
        class_set: at.class_set.id,
        label: at.bench.label.clone(),
        number_hash,
        token_hash: sha256(token),
    };
    let visit = state.act(&(at.department, Anyone), act).await?;
    Ok(visit.is_some())
}

/// Ends this browser's visit.
pub(super) async fn leave(state: AppState, at: AtBench) -> Reply {
    if let Some(visit) = at.visit {
        let class_set = at.class_set.id;
        let act = LeaveBench { class_set };
        state.act(&(at.department, visit), act).await?;
    }
    go(format!("/c/{}", at.class_set.join_code))
}
