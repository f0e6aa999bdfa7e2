//! The page.

use axum::extract::{Path, Query};

use super::stop;
use super::tiles::{self, Tiles};
use super::{off, url};
use crate::db::class_set::{self, ClassSet};
use crate::ids::ClassSetId;
use crate::web::assets;
use crate::web::error::Reply;
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;

#[derive(askama::Template)]
#[template(path = "room/show.html")]
pub(super) struct RoomPage {
    layout: Layout,
    class_set: ClassSet,
    page_url: String,
    /// The part that changes.
    live: Tiles,
    /// When measuring stops, as it is or as it was typed.
    stop: TypedText,
    /// Whether the page refreshes itself where scripts are off.
    is_refreshing: bool,
    script_url: String,
}

/// What the address asks for.
#[derive(Debug, serde::Deserialize)]
pub(super) struct RoomQuery {
    /// Given, whatever it says: the page is not to refresh itself.
    still: Option<String>,
}

impl RoomQuery {
    /// Says whether the page is not to refresh itself.
    pub(super) fn is_still(&self) -> bool {
        self.still.is_some()
    }
}

/// Shows the page.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path(id): Path<ClassSetId>,
    Query(asked): Query<RoomQuery>,
) -> Reply {
    page(&state, &by, id, asked.is_still(), None).await
}

/// Shows the page, perhaps with a time that could not be taken; then it stays
/// still.
pub(super) async fn page(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
    is_still: bool,
    refused: Option<TypedText>,
) -> Reply {
    let layout = by.layout.clone();
    let class_set = class_set::get(&mut state.reader(by).await?, id).await?;
    if !class_set.is_live {
        return off::page(layout, class_set);
    }
    let mut live = tiles::find(state, by, id).await?;
    live.is_still = is_still;
    Page(RoomPage {
        layout,
        page_url: url(id),
        is_refreshing: !is_still && refused.is_none() && class_set.is_open(),
        stop: refused.unwrap_or_else(|| stop::set(&class_set, state)),
        live,
        class_set,
        script_url: assets::url("room.js"),
    })
    .reply()
}
