//! The teacher's class sets.

mod create;
mod help;
mod list;
mod new_number;
mod qr;
mod show;
mod summary;
mod thresholds;

use crate::pages::access::Access::{NotBlind, Staff};
use crate::pages::access::Routes;

pub(super) fn routes() -> Routes {
    // With its number anybody reads a bench's feedback.
    let new_number = "/class-sets/{id}/benches/{label}/new-number";
    Routes::default()
        .get("/class-sets", Staff, list::get)
        .get("/class-sets/new", Staff, create::get)
        .post("/class-sets/new", Staff, create::post)
        .get("/class-sets/{id}", Staff, show::get)
        .post("/class-sets/{id}/state", Staff, help::set_state)
        .post("/class-sets/{id}/help", Staff, help::post)
        .post("/class-sets/{id}/thresholds", Staff, thresholds::post)
        .get("/class-sets/{id}/summary", NotBlind, summary::get)
        .get(new_number, NotBlind, new_number::get)
        .post(new_number, NotBlind, new_number::post)
}
