//! The data file: one writer, append-only history.

mod history;
mod panic;
mod plans;
mod writer;
