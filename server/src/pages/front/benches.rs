//! Choosing a bench. The first visit gives the bench its come-back number.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use axum_extra::extract::CookieJar;

use super::at_bench::{AtBench, find_class_set};
use crate::acts::{Anyone, NotTaken, TakeBench};
use crate::db::bench::{self, Bench};
use crate::db::class_set::ClassSet;
use crate::db::release;
use crate::secret;
use crate::web::error::{AppError, Reply};
use crate::web::form::Pairs;
use crate::web::layout::{Layout, Page};
use crate::web::session::{VISIT_COOKIE, cookie};
use crate::web::state::AppState;
use crate::words::Say;

/// Nobody takes a bench any more.
const CLOSED: AppError = AppError::Pupil(StatusCode::FORBIDDEN, Say::bench_closed);

#[derive(askama::Template)]
#[template(path = "front/benches.html")]
struct BenchesPage {
    layout: Layout,
    class_set: ClassSet,
    /// Name of the practical.
    practical: &'static str,
    date: String,
    /// Whether the groups can read their marks.
    has_feedback: bool,
    benches: Vec<Bench>,
}

/// Shows the benches of a class.
pub(super) async fn get(state: AppState, Path(code): Path<String>) -> Reply {
    let (mut db, class_set) = find_class_set(&state.store, &code).await?;
    let benches = bench::list(&mut db, class_set.id).await?;
    let out = release::find_out(&mut db, class_set.id).await?;
    let page = BenchesPage {
        layout: Layout::public(state.say),
        practical: state.say.method(class_set.method()?),
        date: state.say.date(&class_set.held_on),
        has_feedback: out.is_some(),
        class_set,
        benches,
    };
    Ok(Page(page).into_response())
}

#[derive(askama::Template)]
#[template(path = "front/number.html")]
struct NumberPage {
    layout: Layout,
    label: String,
    /// Four figures, shown this once.
    number: String,
    /// Address of the sheet.
    url: String,
}

/// Takes a bench: straight to its sheet, to the question for its number, or
/// to a new number where nobody has been yet.
pub(super) async fn post(
    state: AppState,
    Path(code): Path<String>,
    cookies: CookieJar,
    pairs: Pairs,
) -> Reply {
    let at = AtBench::find(&state, &code, pairs.get("bench"), &cookies).await?;
    if at.visit.is_some() {
        return Ok(Redirect::to(&at.url()).into_response());
    }
    let come_back = Redirect::to(&format!("{}/come-back", at.url()));
    // The act says so too: here it spares the hash of a number.
    if at.bench.come_back_hash.is_some() {
        return Ok(come_back.into_response());
    }
    if !at.class_set.is_open() {
        return Err(CLOSED);
    }
    let number = secret::come_back_number();
    let token = browser_token(&cookies);
    let act = TakeBench {
        class_set: at.class_set.id,
        label: at.bench.label.clone(),
        number_hash: state.passwords.hash(number.clone()).await?,
        token_hash: secret::sha256(&token),
    };
    match state.act(&(at.department, Anyone), act).await? {
        Ok(_) => {}
        Err(NotTaken::HasNumber) => return Ok(come_back.into_response()),
        Err(NotTaken::Closed) => return Err(CLOSED),
    }
    let url = at.url();
    let page = NumberPage {
        layout: Layout::public(at.say),
        label: at.bench.label,
        number,
        url,
    };
    Ok((cookies.add(cookie(VISIT_COOKIE, token)), Page(page)).into_response())
}

/// Returns the browser's token: the one that it has, or a new one.
pub(super) fn browser_token(cookies: &CookieJar) -> String {
    held_token(cookies).map_or_else(secret::token, str::to_owned)
}

/// Returns the token that the browser has, if it is one of ours by its looks.
pub(super) fn held_token(cookies: &CookieJar) -> Option<&str> {
    let is_ours = |t: &&str| t.len() == 64 && t.bytes().all(|b| b.is_ascii_hexdigit());
    cookies.get(VISIT_COOKIE).map(|c| c.value()).filter(is_ours)
}
