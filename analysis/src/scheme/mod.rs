//! Mark schemes: what earns marks, and what the judged working suggests.
//!
//! A scheme is a list of [`Point`]s, each judged by one of the [`Check`]s of
//! this crate or by eye. A suggestion is never a mark: people award marks.
//!
//! # How marks are suggested
//! Each figure was judged on the group's own figures, so one slip is one flag.
//! `charge.rs` charges each slip once, at the first point of the scheme that is
//! about it; every other point looks whether its figures are there, and earns
//! its marks whatever came before. What is inferred about readings costs
//! nothing. A suggestion is `is_shown` where it rests on the group's own
//! figures: going against it asks for a reason.

mod charge;
mod evidence;
mod house;
mod point;
mod readings;
mod suggest;
mod why;
mod working;

pub use crate::check::Check;
pub use house::{HousePoint, house};
pub use point::{Answer, Judged, Level, Point};
pub use suggest::suggest;
pub use why::{Place, Why};

use crate::field::Field;
use crate::method::Method;

impl Check {
    /// Whether sheets of this method have what it looks at.
    #[must_use]
    pub fn is_for(self, method: Method) -> bool {
        match self {
            Self::EnlargementFound | Self::EnlargementApplied => method.has(Field::Magnification),
            Self::Gradient => method.has(Field::Gradient),
            _ => true,
        }
    }
}

/// What the judged working suggests for one point.
#[derive(Clone, Debug, PartialEq)]
pub struct Suggestion {
    /// Marks, 0 to those of the point.
    pub marks: u32,
    /// Why.
    pub why: Why,
    /// Whether it rests on what the group's own figures show: then a marker
    /// who goes against it says why. False where it only counts what is
    /// there, or finds nothing.
    pub is_shown: bool,
}
