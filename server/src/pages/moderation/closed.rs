//! Keeping second markers blind: the page that everybody gets instead of first
//! marks, or of anything that was made while they were given, as long as they
//! have to mark a sheet of that class set blind.

use axum::extract::{FromRequestParts as _, RawPathParams};
use axum::http::StatusCode;
use axum::http::request::Parts;
use axum::response::{IntoResponse, Response};

use crate::db::round_sheet::{self, Closing, Kind};
use crate::ids::ClassSetId;
use crate::web::error::AppError;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;

#[derive(askama::Template)]
#[template(path = "moderation/closed.html")]
pub(super) struct ClosedPage {
    layout: Layout,
    closing: Closing,
}

/// Returns the page for whoever has to mark a sheet of class set `{id}` blind;
/// `None` for everybody else. An address without a number there is none of
/// ours.
pub(crate) async fn find(
    state: &AppState,
    by: &SignedIn,
    parts: &mut Parts,
) -> Result<Option<Response>, AppError> {
    let params = RawPathParams::from_request_parts(parts, state).await;
    let id = params.iter().flatten().find(|(name, _)| *name == "id");
    let Some(id) = id.and_then(|(_, id)| id.parse().ok()) else {
        return Ok(Some(StatusCode::BAD_REQUEST.into_response()));
    };
    let mut db = state.reader(by).await?;
    let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
    let closing = closed.class_set(ClassSetId(id)).cloned();
    Ok(closing.map(|closing| {
        let page = page(by.layout.clone(), closing);
        (StatusCode::FORBIDDEN, page).into_response()
    }))
}

/// Returns the page that says so.
pub(super) fn page(layout: Layout, closing: Closing) -> Page<ClosedPage> {
    Page(ClosedPage { layout, closing })
}
