//! Who has an account, and a one-time link for one more.

use axum::http::HeaderMap;

use crate::acts::Invite;
use crate::db::staff::{self, Role, Staff};
use crate::pages::address::Address;
use crate::secret;
use crate::table::{PageTable, Table};
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;

#[derive(askama::Template)]
#[template(path = "staff/colleagues.html")]
struct ColleaguesPage {
    layout: Layout,
    staff: PageTable,
    /// Whether the reader may add one.
    may_invite: bool,
    /// Address of a link just made; shown this once.
    link: Option<String>,
}

fn page(layout: Layout, staff: &[Staff], may_invite: bool, link: Option<String>) -> Reply {
    let staff = Table::of(staff)
        .text("Name", |person| &person.name)
        .text("Role", |person| match person.role {
            Role::Head => "Head of department",
            Role::Teacher => "Teacher",
        })
        .on_page("", "Who can sign in");
    Page(ColleaguesPage {
        layout,
        staff,
        may_invite,
        link,
    })
    .reply()
}

/// Shows the list of colleagues.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let staff = staff::list(&mut state.reader(&by).await?).await?;
    let may_invite = by.is_head();
    page(by.layout, &staff, may_invite, None)
}

/// Makes a link for one colleague. It is shown once.
pub(super) async fn post(state: AppState, headers: HeaderMap, form: StaffForm) -> Reply {
    let token = secret::token();
    let token_hash = secret::sha256(&token);
    state.act(&form.by, Invite { token_hash }).await?;
    let staff = staff::list(&mut state.reader(&form.by).await?).await?;
    let address = Address::of(&state.pupils_address, &headers);
    let link = format!("{}/staff/first/{token}", address.text);
    page(form.by.layout, &staff, true, Some(link))
}
