//! Accounts of staff, and signing in and out.

mod account;
mod colleagues;
mod sign_in;
mod sign_out;

use axum::response::{IntoResponse, Redirect, Response};
use axum_extra::extract::CookieJar;

use crate::access::Access::{Anyone, Head, Staff};
use crate::access::Routes;
use crate::db::event::{self, NewEvent};
use crate::db::sign_in as sessions;
use crate::error::AppError;
use crate::ids::StaffId;
use crate::secret;
use crate::session::{STAFF_COOKIE, cookie};
use crate::state::AppState;

/// What others than heads of department are told.
const TOLD: &str = "Only a head of department can add a colleague.";

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/staff", Staff, colleagues::get)
        .post("/staff/invite", Head(TOLD), colleagues::post)
        .get("/staff/first/{token}", Anyone, account::get)
        .post("/staff/first/{token}", Anyone, account::post)
        .get("/staff/sign-in", Anyone, sign_in::get)
        .post("/staff/sign-in", Anyone, sign_in::post)
        .post("/staff/sign-out", Staff, sign_out::post)
}

/// Starts a session under a new token, ends the browser's old one, and leads
/// to the class sets.
async fn start_session(
    state: &AppState,
    cookies: CookieJar,
    staff: StaffId,
) -> Result<Response, AppError> {
    let (token, now) = (secret::token(), state.clock.now());
    let hash = secret::sha256(&token);
    let old = cookies.get(STAFF_COOKIE).map(|c| secret::sha256(c.value()));
    state
        .store
        .writer()
        .run(move |db| {
            Box::pin(async move {
                if let Some(old) = old {
                    sessions::delete(db, &old).await?;
                }
                sessions::insert(db, &hash, staff, now).await?;
                let what = NewEvent {
                    at: now,
                    what: "signed_in",
                    staff_id: Some(staff),
                    class_set_id: None,
                    detail: "",
                };
                event::insert(db, &what).await
            })
        })
        .await?;
    Ok((
        cookies.add(cookie(STAFF_COOKIE, token)),
        Redirect::to("/class-sets"),
    )
        .into_response())
}
