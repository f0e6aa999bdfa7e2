//! The bench sheet: one page in the order of the work, and what becomes of it
//! when it is sent.

mod act;
mod boxes;
mod conflict;
mod form;
pub mod hand_in;
mod lines;
mod not_kept;
mod page;
pub mod show;
mod words;
