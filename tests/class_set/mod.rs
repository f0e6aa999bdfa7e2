//! Making, showing, closing class sets.

mod create;
mod show;
mod state;
