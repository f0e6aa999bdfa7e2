//! The view for a projector: who has handed in, and how long there is. It
//! asks for no judgement, so that none can be on it.

use analysis::room::Stage;
use axum::extract::{Path, Query};

use super::show::RoomQuery;
use super::{back, off, url};
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::ids::ClassSetId;
use crate::report::room::stage;
use crate::web::assets;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::Say;

#[derive(askama::Template)]
#[template(path = "room/wall.html")]
struct WallPage {
    layout: Layout,
    class_set: ClassSet,
    page_url: String,
    /// The part that changes.
    live: Benches,
    /// Whether the page refreshes itself where scripts are off.
    is_refreshing: bool,
    script_url: String,
}

/// The part of the view that changes.
#[derive(askama::Template)]
#[template(path = "room/wall_benches.html")]
struct Benches {
    /// The language of the class.
    say: Say,
    class_set: ClassSet,
    /// Count of the class set's changes that this was made after.
    count: i64,
    /// `10:42:05`.
    refreshed: String,
    /// `12 minutes left, until 10:54`.
    left: Option<String>,
    handed_in: usize,
    benches: Vec<BenchOnWall>,
    /// Whether the page was asked not to refresh itself.
    is_still: bool,
}

struct BenchOnWall {
    label: String,
    state: String,
    /// Name of its state in the style sheet.
    class: &'static str,
}

/// Shows the view.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path(id): Path<ClassSetId>,
    Query(asked): Query<RoomQuery>,
) -> Reply {
    let mut live = find(&state, &by, id).await?;
    live.is_still = asked.is_still();
    if !live.class_set.is_live {
        return off::page(by.layout, live.class_set);
    }
    Page(WallPage {
        layout: by.layout,
        is_refreshing: !live.is_still && live.class_set.is_open(),
        page_url: format!("{}/wall", url(live.class_set.id)),
        class_set: live.class_set.clone(),
        live,
        script_url: assets::url("room.js"),
    })
    .reply()
}

/// Shows the part that changes by itself, for the view's script.
pub(super) async fn benches(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let live = find(&state, &by, id).await?;
    if !live.class_set.is_live {
        return back(live.class_set.id, false, "");
    }
    Page(live).reply()
}

async fn find(state: &AppState, by: &SignedIn, id: ClassSetId) -> Result<Benches, AppError> {
    let now = state.clock.now();
    let count = state.changes.count(id);
    let mut db = state.reader(by).await?;
    let class_set = class_set::get(&mut db, id).await?;
    let benches = bench::list(&mut db, id).await?;
    drop(db);
    let handed_in = benches.iter().filter(|b| stage(b) == Stage::HandedIn);
    let say = state.say;
    Ok(Benches {
        say,
        count,
        refreshed: state.zone.time_to_the_second(now),
        left: say.left(class_set.stops_at, now, &state.zone),
        handed_in: handed_in.count(),
        benches: benches.into_iter().map(|b| on_wall(say, b)).collect(),
        is_still: false,
        class_set,
    })
}

fn on_wall(say: Say, bench: Bench) -> BenchOnWall {
    let (state, class) = match stage(&bench) {
        Stage::NotBegun => (say.wall_not_begun(), "not-begun"),
        Stage::Writing | Stage::Saved => (say.wall_writing(), "writing"),
        Stage::HandedIn => (say.wall_handed_in(), "handed-in"),
    };
    BenchOnWall {
        label: bench.label,
        state,
        class,
    }
}
