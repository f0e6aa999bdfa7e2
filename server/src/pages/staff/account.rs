//! Making an account from a one-time link.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;
use axum_extra::extract::CookieJar;

use super::start_session;
use crate::acts::{Anyone, MakeAccount, NoAccount};
use crate::db::invitation;
use crate::error::{AppError, Reply};
use crate::form::Pairs;
use crate::ids::DepartmentId;
use crate::layout::{Layout, Page};
use crate::password;
use crate::secret::sha256;
use crate::state::AppState;
use crate::words::Say;
use crate::words::refusal;

const LAPSED: AppError = AppError::NotFound(refusal::OLD_LINK);

const TAKEN: &str = refusal::NAME_TAKEN;

#[derive(askama::Template)]
#[template(path = "staff/account.html")]
struct AccountPage {
    layout: Layout,
    token: String,
    /// Name as typed.
    name: String,
    wrong_name: Option<&'static str>,
    /// What is wrong with the password.
    wrong_password: Option<&'static str>,
}

/// Finds the department that a link still good leads to.
async fn find(state: &AppState, token_hash: &str) -> Result<DepartmentId, AppError> {
    let mut door = state.store.door().await?;
    let department = door.find_by_link(token_hash).await?.ok_or(LAPSED)?;
    let mut db = door.enter(department);
    let role = invitation::find_role(&mut db, token_hash, state.clock.now()).await?;
    role.map(|_| department).ok_or(LAPSED)
}

/// Asks for a name and a password.
pub(super) async fn get(state: AppState, Path(token): Path<String>) -> Reply {
    find(&state, &sha256(&token)).await?;
    let layout = Layout::public(Say::english());
    let page = AccountPage {
        layout,
        token,
        name: String::new(),
        wrong_name: None,
        wrong_password: None,
    };
    Page(page).reply()
}

/// Makes the account and signs it in.
pub(super) async fn post(
    state: AppState,
    Path(token): Path<String>,
    cookies: CookieJar,
    pairs: Pairs,
) -> Reply {
    let token_hash = sha256(&token);
    let department = find(&state, &token_hash).await?;
    let name = pairs
        .get("name")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    let password = pairs.get("password").to_owned();
    let mut wrong_name = match name.chars().count() {
        0 => Some(refusal::OWN_NAME),
        1..=80 => None,
        _ => Some(refusal::AT_MOST_80),
    };
    let mut wrong_password = password::refusal(&password, &name);
    if wrong_password.is_none() && password != pairs.get("again") {
        wrong_password = Some(refusal::PASSWORDS_DIFFER);
    }
    if wrong_name.is_none() && wrong_password.is_none() {
        let password_hash = state.passwords.hash(password).await?;
        let act = MakeAccount {
            token_hash,
            name: name.clone(),
            password_hash,
        };
        match state.act(&(department, Anyone), act).await? {
            Ok(staff) => return start_session(&state, cookies, department, staff).await,
            Err(NoAccount::Lapsed) => return Err(LAPSED),
            Err(NoAccount::NameTaken) => wrong_name = Some(TAKEN),
        }
    }
    let page = AccountPage {
        layout: Layout::public(Say::english()),
        token,
        name,
        wrong_name,
        wrong_password,
    };
    Ok((StatusCode::UNPROCESSABLE_ENTITY, Page(page)).into_response())
}
