//! Mark schemes: what earns marks, and what the judged working suggests.
//!
//! A scheme is a list of [`Point`]s, each judged by one of the [`Check`]s of
//! this crate or by eye. A suggestion is never a mark: people award marks.

mod charge;
mod check;
mod evidence;
mod house;
mod point;
mod readings;
mod suggest;
mod working;

pub use check::Check;
pub use house::house;
pub use point::{Answer, Judged, Level, Point};
pub use suggest::suggest;

/// What the judged working suggests for one point.
#[derive(Clone, Debug, PartialEq)]
pub struct Suggestion {
    /// Marks, 0 to those of the point.
    pub marks: u32,
    /// Why, in one sentence.
    pub reason: String,
    /// Whether it rests on what the group's own figures show: then a marker
    /// who goes against it says why. False where it only counts what is
    /// there, or finds nothing.
    pub is_shown: bool,
}
