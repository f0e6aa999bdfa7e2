//! The bench sheet: one page in the order of the work, and what becomes of it
//! when it is sent.

mod act;
mod boxes;
mod conflict;
pub(super) mod form;
pub mod hand_in;
pub(super) mod lines;
pub mod look_again;
mod not_kept;
pub(super) mod own_words;
mod page;
pub(super) mod rows;
pub mod show;
mod words;
