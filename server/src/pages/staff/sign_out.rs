//! Signing out: the session ends on the server too.

use axum::response::{IntoResponse, Redirect};
use axum_extra::extract::CookieJar;
use axum_extra::extract::cookie::Cookie;

use crate::acts::SignOut;
use crate::error::Reply;
use crate::secret::sha256;
use crate::session::{STAFF_COOKIE, StaffForm};
use crate::state::AppState;

/// Ends the session.
pub(super) async fn post(state: AppState, cookies: CookieJar, form: StaffForm) -> Reply {
    if let Some(held) = cookies.get(STAFF_COOKIE) {
        let token_hash = sha256(held.value());
        state.act(&form.by, SignOut { token_hash }).await?;
    }
    let gone = Cookie::build((STAFF_COOKIE, "")).path("/").build();
    Ok((cookies.remove(gone), Redirect::to("/staff/sign-in")).into_response())
}
