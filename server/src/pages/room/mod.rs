//! Round the room: the teacher's live page of a lesson, and the view of it
//! for a projector. For teaching practicals only; a class set can have them
//! switched off.

mod changes;
mod off;
mod seen;
mod show;
mod stop;
mod tile;
mod tiles;
mod wall;

use crate::ids::ClassSetId;
use crate::pages::access::Access::{NotBlind, Staff};
use crate::pages::access::Routes;
use crate::web::error::Reply;
use crate::web::layout::go;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/class-sets/{id}/room", NotBlind, show::get)
        .get("/class-sets/{id}/room/tiles", NotBlind, tiles::get)
        .get("/class-sets/{id}/room/changes", NotBlind, changes::get)
        .post("/class-sets/{id}/room/seen", NotBlind, seen::post)
        .post("/class-sets/{id}/room/stop", NotBlind, stop::post)
        .get("/class-sets/{id}/room/wall", Staff, wall::get)
        .get("/class-sets/{id}/room/wall/benches", Staff, wall::benches)
}

/// Address of the page of a class set, which also says why it is off.
fn url(id: ClassSetId) -> String {
    format!("/class-sets/{id}/room")
}

/// To the page, as it was: `?still` is the one that does not refresh itself
/// where scripts are off. `anchor` is blank, or `#` and a place on it.
fn back(id: ClassSetId, is_still: bool, anchor: &str) -> Reply {
    let still = if is_still { "?still" } else { "" };
    go(format!("{}{still}{anchor}", url(id)))
}
