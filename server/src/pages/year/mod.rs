//! The year comparison: kits, slips and classes over a school year, with the
//! year before beside it. Teachers are compared for the head of department
//! alone.
//!
//! Every figure leads to the sheets that it was made from: `sheets.rs` lists
//! those of a kit, a class, a slip.

mod asked;
mod cells;
pub mod class;
pub mod classes;
pub mod files;
pub mod kit;
pub mod kits;
mod line;
pub mod sheets;
pub mod slip;
pub mod slips;
pub mod start;
pub mod teachers;
