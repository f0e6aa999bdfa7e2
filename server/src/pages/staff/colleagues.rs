//! Who has an account, and a one-time link for one more.

use axum::http::HeaderMap;
use axum::response::IntoResponse;

use crate::acts::Invite;
use crate::db::staff::{self, Role, Staff};
use crate::error::Reply;
use crate::layout::{Layout, Page};
use crate::pages::address::Address;
use crate::secret;
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "staff/colleagues.html")]
struct ColleaguesPage {
    layout: Layout,
    staff: Vec<Staff>,
    /// Whether the reader may add one.
    may_invite: bool,
    /// Address of a link just made; shown this once.
    link: Option<String>,
}

/// The list of colleagues.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let staff = staff::list(&mut state.reader(&by).await?).await?;
    let may_invite = by.is_head();
    Ok(Page(ColleaguesPage {
        layout: by.layout,
        staff,
        may_invite,
        link: None,
    })
    .into_response())
}

/// Makes a link for one colleague. It is shown once.
pub(super) async fn post(state: AppState, headers: HeaderMap, form: StaffForm) -> Reply {
    let token = secret::token();
    let token_hash = secret::sha256(&token);
    state.act(&form.by, Invite { token_hash }).await?;
    let staff = staff::list(&mut state.reader(&form.by).await?).await?;
    let address = Address::of(&state.pupils_address, &headers);
    let link = Some(format!("{}/staff/first/{token}", address.text));
    Ok(Page(ColleaguesPage {
        layout: form.by.layout,
        staff,
        may_invite: true,
        link,
    })
    .into_response())
}
