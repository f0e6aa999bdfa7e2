//! The graphs of a school year: what kits, slips and classes come to, and a
//! kit's sheets in date order.
//!
//! [`lanes`] draws one line of the exercise book for each thing, with a mark
//! and its interval on it; [`dates`] one mark for each sheet. Nothing is told
//! by colour alone: what stands for the year before is an open circle, what is
//! left aside too, and lines are named where they run.

pub mod dates;
pub mod lanes;
pub mod span;

pub use dates::{DateGraph, Dated, DatesOf};
pub use lanes::{Lane, LaneGraph, LaneMark, LanesOf};
