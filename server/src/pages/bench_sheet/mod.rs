//! The bench sheet: one page in the order of the work, and what becomes of it
//! when it is sent.

mod act;
mod boxes;
mod conflict;
pub(super) mod form;
pub(super) mod hand_in;
pub(super) mod lines;
mod look_again;
pub(crate) mod not_kept;
pub(super) mod own_words;
mod page;
pub(super) mod rows;
mod show;

use crate::pages::access::Access::Bench;
use crate::pages::access::Routes;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/c/{code}/{label}", Bench, show::get)
        .post("/c/{code}/{label}", Bench, hand_in::post)
        .get("/c/{code}/{label}/look-again", Bench, look_again::get)
}
