//! Mark schemes: what earns marks, and what the judged working suggests.
//!
//! A scheme is a list of [`Point`]s, each judged by one of the [`Check`]s of
//! this crate or by eye. A suggestion is never a mark: people award marks.

mod check;
mod house;
mod point;

pub use check::Check;
pub use house::house;
pub use point::{Answer, Judged, Level, Point};

use crate::assess::Assessment;
use crate::sheet::Sheet;

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

/// What the judged working suggests for each of a scheme's points; `None` for
/// one that is judged by eye. `assessment` is that of `sheet`, without the
/// slips that people dismissed.
#[must_use]
pub fn suggest(
    points: &[&Point],
    _sheet: &Sheet,
    _assessment: &Assessment,
) -> Vec<Option<Suggestion>> {
    points.iter().map(|_| None).collect()
}
