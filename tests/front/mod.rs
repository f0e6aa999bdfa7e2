//! Coming in: the lesson code, the bench, its number.

mod bench;
mod come_back;
mod join;
