//! The part of the page that changes: what is left of the lesson, the tiles
//! and the kits.

use analysis::room::Stage;
use axum::extract::Path;

use super::back;
use super::tile::{Looks, Tile};
use crate::db::class_set::{self, ClassSet};
use crate::ids::ClassSetId;
use crate::report::room::{KitInRoom, Room, load};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::{self, Say};

/// The part of the page that changes.
#[derive(askama::Template)]
#[template(path = "room/tiles.html")]
pub(super) struct Tiles {
    layout: Layout,
    class_set: ClassSet,
    /// Count of the class set's changes that this was made after.
    count: i64,
    /// `10:42:05`.
    refreshed: String,
    /// `12 minutes left, until 10:54`.
    left: Option<String>,
    /// How many benches have come how far, in a line.
    progress: String,
    tiles: Vec<Tile>,
    kits: Vec<KitInRoom>,
    /// Whether the page was asked not to refresh itself.
    pub(super) is_still: bool,
}

/// Shows the part by itself, for the page's script.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let class_set = class_set::get(&mut state.reader(&by).await?, id).await?;
    if !class_set.is_live {
        return back(id, false, "");
    }
    Page(find(&state, &by, id).await?).reply()
}

/// Returns the part as it is now.
pub(super) async fn find(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
) -> Result<Tiles, AppError> {
    let now = state.clock.now();
    let count = state.changes.count(id);
    let mut room = load(&mut state.reader(by).await?, id, now).await?;
    state.keep(by, room.to_keep.take());
    let looks = Looks {
        now,
        zone: &state.zone,
        by: by.staff_id,
        is_open: room.class_set.is_open(),
    };
    Ok(Tiles {
        layout: by.layout.clone(),
        count,
        refreshed: state.zone.time_to_the_second(now),
        left: Say::english().left(room.class_set.stops_at, now, &state.zone),
        progress: progress(&room),
        tiles: (room.benches.into_iter())
            .map(|bench| Tile::of(bench, &looks))
            .collect(),
        kits: room.kits,
        class_set: room.class_set,
        is_still: false,
    })
}

fn progress(room: &Room) -> String {
    let count = |stages: &[Stage]| {
        let at = room.benches.iter().filter(|b| stages.contains(&b.stage));
        at.count()
    };
    let writing = count(&[Stage::Writing, Stage::Saved]);
    words::room::count(count(&[Stage::HandedIn]), writing, room.benches.len())
}
