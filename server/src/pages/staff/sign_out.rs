//! Signing out: the session ends on the server too.

use axum::extract::State;
use axum::response::{IntoResponse, Redirect, Response};
use axum_extra::extract::CookieJar;
use axum_extra::extract::cookie::Cookie;

use crate::db::{Store, sign_in};
use crate::error::AppError;
use crate::secret::sha256;
use crate::session::{STAFF_COOKIE, StaffForm};

/// Ends the session.
pub(super) async fn post(
    State(store): State<Store>,
    cookies: CookieJar,
    _form: StaffForm,
) -> Result<Response, AppError> {
    if let Some(held) = cookies.get(STAFF_COOKIE) {
        let hash = sha256(held.value());
        store
            .writer()
            .run(move |db| Box::pin(async move { sign_in::delete(db, &hash).await }))
            .await?;
    }
    let gone = Cookie::build((STAFF_COOKIE, "")).path("/").build();
    Ok((cookies.remove(gone), Redirect::to("/staff/sign-in")).into_response())
}
