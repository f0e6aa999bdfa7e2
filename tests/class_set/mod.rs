//! Making, showing, closing class sets, and what the teacher sees of a class.

mod create;
mod help;
mod inference;
mod new_number;
mod panic;
mod questions;
mod show;
mod state;
mod suggested;
mod summary;
mod thresholds;
