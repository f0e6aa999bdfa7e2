//! Signing in, and out.

use analysis::text::folded;
use axum::http::StatusCode;
use axum_extra::extract::CookieJar;

use super::start_session;
use crate::acts;
use crate::acts::SignOut;
use crate::db::staff::{self, Role, Staff};
use crate::ids::DepartmentId;
use crate::secret::sha256;
use crate::web::error::{AppError, Reply};
use crate::web::form::{Pairs, TypedText};
use crate::web::layout::{Layout, Page};
use crate::web::password::LONGEST;
use crate::web::session::{STAFF_COOKIE, StaffForm};
use crate::web::state::AppState;
use crate::words::Say;
use crate::words::refusal;
use axum::response::{IntoResponse, Redirect};
use axum_extra::extract::cookie::Cookie;

#[derive(askama::Template)]
#[template(path = "staff/sign_in.html")]
struct SignInPage {
    layout: Layout,
    /// What is wrong is of name and password together.
    name: TypedText,
}

fn page(name: TypedText) -> Page<SignInPage> {
    let layout = Layout::public(Say::english());
    Page(SignInPage { layout, name })
}

/// Asks for name and password.
pub(super) async fn get() -> impl IntoResponse {
    page(TypedText::default())
}

/// Checks them. The reply does not tell an unknown name from a wrong password,
/// neither in words nor in time.
pub(super) async fn post(state: AppState, cookies: CookieJar, pairs: Pairs) -> Reply {
    let name = pairs.trimmed("name").chars().take(200).collect::<String>();
    let again = |status, wrong: &'static str| {
        let mut typed = TypedText::new(&name);
        typed.refuse(wrong);
        (status, page(typed)).into_response()
    };
    let key = folded(&name);
    if !state.rates.sign_in.take(&key, state.clock.now()) {
        return Ok(again(
            StatusCode::TOO_MANY_REQUESTS,
            refusal::TOO_MANY_TRIES,
        ));
    }
    let found = find(&state, &name).await?;
    let password: String = pairs.get("password").chars().take(LONGEST + 1).collect();
    let hash = found.as_ref().map(|(_, s)| s.password_hash.clone());
    let is_right = state.passwords.is_right(password, hash).await?;
    match found {
        Some((department, person)) if is_right => {
            state.rates.sign_in.forgive(&key);
            let staff = acts::Staff {
                id: person.id,
                is_head: person.role == Role::Head,
            };
            start_session(&state, cookies, department, staff).await
        }
        _ => {
            tracing::warn!("a sign-in was refused");
            Ok(again(
                StatusCode::UNPROCESSABLE_ENTITY,
                refusal::NO_SUCH_SIGN_IN,
            ))
        }
    }
}

/// Finds who has this name, and their department.
async fn find(state: &AppState, name: &str) -> Result<Option<(DepartmentId, Staff)>, AppError> {
    let mut door = state.store.door().await?;
    let Some(department) = door.find_by_name(name).await? else {
        return Ok(None);
    };
    let found = staff::find_by_name(&mut door.enter(department), name).await?;
    Ok(found.map(|person| (department, person)))
}

/// Ends the session.
pub(super) async fn out(state: AppState, cookies: CookieJar, form: StaffForm) -> Reply {
    if let Some(held) = cookies.get(STAFF_COOKIE) {
        let token_hash = sha256(held.value());
        state.act(&form.by, SignOut { token_hash }).await?;
    }
    let gone = Cookie::build((STAFF_COOKIE, "")).path("/").build();
    Ok((cookies.remove(gone), Redirect::to("/staff/sign-in")).into_response())
}
