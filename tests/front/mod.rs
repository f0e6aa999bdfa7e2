//! Coming in: the class code, the bench, its number.

mod bench;
mod come_back;
mod join;
