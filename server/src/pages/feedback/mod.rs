//! Feedback: what groups get back, when they may see it, and on paper.

mod overview;
mod own;
mod print;
mod sheet_view;

pub(super) use own::is_out;

use crate::pages::access::Access::{Bench, NotBlind};
use crate::pages::access::Routes;

pub(super) fn routes() -> Routes {
    let sheet = "/class-sets/{id}/feedback/sheets/{label}";
    Routes::default()
        .get("/c/{code}/{label}/feedback", Bench, own::get)
        .get("/class-sets/{id}/feedback", NotBlind, overview::get)
        .get("/class-sets/{id}/feedback/print", NotBlind, print::all)
        .get(sheet, NotBlind, print::one)
        .post("/class-sets/{id}/release", NotBlind, overview::post)
}
