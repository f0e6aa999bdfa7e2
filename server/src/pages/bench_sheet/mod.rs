//! The bench sheet: one page in the order of the work, and what becomes of it
//! when it is sent.

mod act;
mod boxes;
mod conflict;
mod form;
pub mod hand_in;
mod lines;
pub mod look_again;
mod not_kept;
mod own_words;
mod page;
mod rows;
pub mod show;
mod words;
