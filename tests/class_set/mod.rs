//! Making, showing, closing class sets, and what the teacher sees of a class.

mod create;
mod new_number;
mod show;
mod state;
mod summary;
