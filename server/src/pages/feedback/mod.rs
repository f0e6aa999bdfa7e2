//! Feedback: what groups get back, when they may see it, and on paper.

mod overview;
mod own;
mod print;
mod release;
mod slip_view;

pub use overview::get as overview;
pub use own::get as own;
pub use print::{all, one};
pub use release::post as release;

pub(super) use own::is_out;
