//! One sheet, for the teacher: readings, working beside ours, each wrong turn,
//! and the teacher's word on it.

pub mod annotate;
pub(in crate::pages) mod body;
pub mod decide;
mod page;
pub mod show;
pub(in crate::pages) mod working;
