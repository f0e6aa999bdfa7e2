//! Making an account from a one-time link.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use axum_extra::extract::CookieJar;

use super::start_session;
use crate::db::event::{self, NewEvent};
use crate::db::staff::{self, NewStaff, Role};
use crate::db::{Store, invitation};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::StaffId;
use crate::layout::{Layout, Page};
use crate::password;
use crate::secret::sha256;
use crate::state::AppState;

const LAPSED: AppError =
    AppError::NotFound("This link has been used, or it is too old. Ask for a new one.");

#[derive(askama::Template)]
#[template(path = "staff/account.html")]
struct AccountPage {
    layout: Layout,
    token: String,
    /// Name as typed.
    name: String,
    /// What is wrong with it.
    wrong_name: Option<&'static str>,
    /// What is wrong with the password.
    wrong_password: Option<&'static str>,
}

async fn find_role(state: &AppState, token: &str) -> Result<Role, AppError> {
    let mut db = state.store.reader(crate::ids::DEPARTMENT).await?;
    invitation::find_role(&mut db, &sha256(token), state.clock.now())
        .await?
        .ok_or(LAPSED)
}

/// Asks for a name and a password.
pub(super) async fn get(
    State(state): State<AppState>,
    Path(token): Path<String>,
) -> Result<Response, AppError> {
    find_role(&state, &token).await?;
    let layout = Layout::public();
    let page = AccountPage {
        layout,
        token,
        name: String::new(),
        wrong_name: None,
        wrong_password: None,
    };
    Ok(Page(page).into_response())
}

/// Makes the account and signs it in.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(token): Path<String>,
    cookies: CookieJar,
    pairs: Pairs,
) -> Result<Response, AppError> {
    let role = find_role(&state, &token).await?;
    let name = pairs
        .get("name")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    let password = pairs.get("password").to_owned();
    let mut wrong_name = match name.chars().count() {
        0 => Some("Type your name as colleagues know it, for instance Ms Fell."),
        1..=80 => None,
        _ => Some("Use at most 80 characters."),
    };
    let mut wrong_password = password::refusal(&password, &name);
    if wrong_password.is_none() && password != pairs.get("again") {
        wrong_password = Some("The two passwords are not the same. Type them again.");
    }
    if wrong_name.is_none() && wrong_password.is_none() {
        let password_hash = state.passwords.hash(password).await?;
        let new = NewStaff {
            name: name.clone(),
            password_hash,
            role,
            made_at: state.clock.now(),
        };
        if let Some(staff) = make(&state.store, sha256(&token), new).await? {
            return start_session(&state, cookies, staff).await;
        }
        wrong_name = Some("Somebody has an account with this name. Add an initial.");
    }
    let page = AccountPage {
        layout: Layout::public(),
        token,
        name,
        wrong_name,
        wrong_password,
    };
    Ok((StatusCode::UNPROCESSABLE_ENTITY, Page(page)).into_response())
}

/// `None` when the name is taken; then the link stays good.
async fn make(
    store: &Store,
    token_hash: String,
    new: NewStaff,
) -> Result<Option<StaffId>, AppError> {
    let made = store.writer().run(move |db| {
        Box::pin(async move {
            let Some(staff) = staff::insert(db, &new).await? else {
                return Ok(None);
            };
            // Two browsers on one link: the second one's account is undone here.
            if invitation::delete(db, &token_hash, new.made_at)
                .await?
                .is_none()
            {
                return Err(sqlx::Error::RowNotFound.into());
            }
            let done = NewEvent {
                at: new.made_at,
                what: "account_made",
                staff_id: Some(staff),
                class_set_id: None,
                detail: &new.name,
            };
            event::insert(db, &done).await?;
            Ok(Some(staff))
        })
    });
    Ok(made.await?)
}
