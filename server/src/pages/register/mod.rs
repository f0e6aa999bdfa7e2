//! The department's own record of who did which practical.

pub mod keep;
mod lines;
pub mod set;
pub mod show;
mod typed;
pub mod year;
