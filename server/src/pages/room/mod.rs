//! Round the room: the teacher's live page of a lesson, and the view of it
//! for a projector. For teaching practicals only; a class set can have them
//! switched off.

pub mod changes;
mod off;
pub mod seen;
pub mod show;
pub mod stop;
mod tile;
pub mod tiles;
pub mod wall;
mod words;

use axum::response::Redirect;

use crate::ids::ClassSetId;

/// Address of the page of a class set, which also says why it is off.
fn url(id: ClassSetId) -> String {
    format!("/class-sets/{id}/room")
}

/// To the page, as it was: `?still` is the one that does not refresh itself
/// where scripts are off. `anchor` is blank, or `#` and a place on it.
fn back(id: ClassSetId, is_still: bool, anchor: &str) -> Redirect {
    let still = if is_still { "?still" } else { "" };
    Redirect::to(&format!("{}{still}{anchor}", url(id)))
}
