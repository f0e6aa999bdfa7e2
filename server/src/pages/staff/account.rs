//! Making an account from a one-time link.

use axum::extract::Path;
use axum_extra::extract::CookieJar;

use super::start_session;
use crate::acts::{Anyone, MakeAccount, NoAccount};
use crate::db::invitation;
use crate::ids::DepartmentId;
use crate::secret::sha256;
use crate::web::error::{AppError, Reply};
use crate::web::form::{Pairs, TypedText};
use crate::web::layout::{Layout, Page};
use crate::web::password;
use crate::web::state::AppState;
use crate::words::Say;
use crate::words::refusal;

const LAPSED: AppError = AppError::NotFound(refusal::OLD_LINK);

const TAKEN: &str = refusal::NAME_TAKEN;

#[derive(askama::Template)]
#[template(path = "staff/account.html")]
struct AccountPage {
    layout: Layout,
    token: String,
    name: TypedText,
    /// Blank: a password is not given back.
    password: TypedText,
}

fn page(token: String, name: TypedText, password: TypedText) -> Page<AccountPage> {
    Page(AccountPage {
        layout: Layout::public(Say::english()),
        token,
        name,
        password,
    })
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
    page(token, TypedText::default(), TypedText::default()).reply()
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
    let mut typed = TypedText::new(
        pairs
            .get("name")
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" "),
    );
    let mut password = TypedText::default();
    let name = typed.check(|name| match name.chars().count() {
        0 => Err(refusal::OWN_NAME),
        1..=80 => Ok(name.to_owned()),
        _ => Err(refusal::AT_MOST_80),
    });
    let sent = pairs.get("password").to_owned();
    if let Some(why) = password::refusal(&sent, &typed.text) {
        password.refuse(why);
    } else if sent != pairs.get("again") {
        password.refuse(refusal::PASSWORDS_DIFFER);
    } else if let Some(name) = name {
        let act = MakeAccount {
            token_hash,
            name,
            password_hash: state.passwords.hash(sent).await?,
        };
        match state.act(&(department, Anyone), act).await? {
            Ok(staff) => return start_session(&state, cookies, department, staff).await,
            Err(NoAccount::Lapsed) => return Err(LAPSED),
            Err(NoAccount::NameTaken) => typed.refuse(TAKEN),
        }
    }
    page(token, typed, password).refused()
}
