//! The year comparison: kits, slips and classes over a school year, with the
//! year before beside it. Teachers are compared for the head of department
//! alone.
//!
//! Every figure leads to the sheets that it was made from: `sheets.rs` lists
//! those of a kit, a class, a slip.

mod asked;
mod cells;
mod class;
mod classes;
mod files;
mod kit;
mod kits;
mod line;
mod sheets;
mod slip;
mod slips;
mod start;
mod teachers;

use crate::access::Access::{Head, Staff};
use crate::access::Routes;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/year", Staff, start::get)
        .get("/year/kits", Staff, kits::get)
        .get("/year/kits/{id}", Staff, kit::get)
        .get("/year/slips", Staff, slips::get)
        .get("/year/slips/{place}/{code}", Staff, slip::get)
        .get("/year/classes", Staff, classes::get)
        .get("/year/classes/{id}", Staff, class::get)
        .get("/year/teachers", Head(teachers::HEAD_ALONE), teachers::get)
        .get("/year/sheets", Staff, sheets::get)
        .get("/year/{file}", Staff, files::get)
}
