//! Accounts of staff, and signing in and out.

mod account;
mod colleagues;
mod sign_in;

use axum::response::{IntoResponse, Redirect};
use axum_extra::extract::CookieJar;

use crate::acts::{self, SignIn};
use crate::ids::DepartmentId;
use crate::pages::access::Access::{Anyone, Head, Staff};
use crate::pages::access::Routes;
use crate::secret;
use crate::web::error::Reply;
use crate::web::session::{STAFF_COOKIE, cookie};
use crate::web::state::AppState;
use crate::words::refusal;

/// What others than heads of department are told.
const TOLD: &str = refusal::HEAD_ADDS_COLLEAGUES;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/staff", Staff, colleagues::get)
        .post("/staff/invite", Head(TOLD), colleagues::post)
        .get("/staff/first/{token}", Anyone, account::get)
        .post("/staff/first/{token}", Anyone, account::post)
        .get("/staff/sign-in", Anyone, sign_in::get)
        .post("/staff/sign-in", Anyone, sign_in::post)
        .post("/staff/sign-out", Staff, sign_in::out)
}

/// Starts a session under a new token, ends the browser's old one, and leads
/// to the class sets.
async fn start_session(
    state: &AppState,
    cookies: CookieJar,
    department: DepartmentId,
    staff: acts::Staff,
) -> Reply {
    let token = secret::token();
    let old = cookies.get(STAFF_COOKIE).map(|c| secret::sha256(c.value()));
    let act = SignIn {
        token_hash: secret::sha256(&token),
        old_token_hash: old,
    };
    state.act(&(department, staff), act).await?;
    Ok((
        cookies.add(cookie(STAFF_COOKIE, token)),
        Redirect::to("/class-sets"),
    )
        .into_response())
}
