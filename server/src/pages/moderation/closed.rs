//! Keeping second markers blind: one guard before every page that shows first
//! marks, or anything that was made while they were given.

use axum::extract::{RawPathParams, Request, State};
use axum::http::StatusCode;
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::db::round_sheet::{self, Closing, Kind};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::session::{NotSignedIn, SignedIn};
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "moderation/closed.html")]
pub(super) struct ClosedPage {
    layout: Layout,
    closing: Closing,
}

/// Lets a request for a page of class set `{id}` through, unless whoever asks
/// has to mark a sheet of it blind: they are told so. Who is not signed in is
/// for the page itself to send away.
pub async fn guard(
    State(state): State<AppState>,
    by: Result<SignedIn, NotSignedIn>,
    params: RawPathParams,
    request: Request,
    next: Next,
) -> Response {
    let by = match by {
        Ok(by) => by,
        Err(NotSignedIn::SignInFirst) => return next.run(request).await,
        Err(failed) => return failed.into_response(),
    };
    let id = params.iter().find(|(name, _)| *name == "id");
    let Some(id) = id.and_then(|(_, id)| id.parse().ok()) else {
        return next.run(request).await;
    };
    match find(&state, &by, ClassSetId(id)).await {
        Ok(None) => next.run(request).await,
        Ok(Some(closing)) => (StatusCode::FORBIDDEN, page(by.layout, closing)).into_response(),
        Err(error) => error.into_response(),
    }
}

/// The page that says so.
pub(super) fn page(layout: Layout, closing: Closing) -> Page<ClosedPage> {
    Page(ClosedPage { layout, closing })
}

/// What closes the class set to whoever asks.
async fn find(
    state: &AppState,
    by: &SignedIn,
    class_set: ClassSetId,
) -> Result<Option<Closing>, AppError> {
    let mut db = state.store.reader(crate::ids::DEPARTMENT).await?;
    let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
    Ok(closed.class_set(class_set).cloned())
}
