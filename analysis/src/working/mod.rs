//! Judging working: a chain walked step by step on the group's own figures.
//!
//! A wrong turn is *shown* when the group's figure agrees with it to the
//! precision that the figure was given to, and does not agree with the right
//! turn. Where the right turn agrees too there is no slip: the group has the
//! benefit of the doubt. Each step is judged on the group's own figures
//! before it, so that one slip is one slip.
//!
//! A method says what its steps are ([`crate::method`]), `chain.rs` works
//! figures out, `explain.rs` finds the wrong turns, `judge.rs` walks the sheet.

pub(crate) mod chain;
mod explain;
mod gradient;
mod judge;
mod mean;
mod other_row;
mod remark;
mod uncertainty;

use crate::field::Field;
use crate::slip::Slip;
use crate::sum::Sum;
use crate::unit::Unit;

pub(crate) use judge::judge;

/// Something that the group's own figures show.
#[derive(Clone, Debug, PartialEq)]
pub struct Flag {
    /// Index of the row; `None` where it holds for the whole sheet (a wrong
    /// turn taken on every row is one flag).
    pub row: Option<usize>,
    /// The figure concerned.
    pub step: Field,
    /// What was done.
    pub slip: Slip,
    /// The figure as typed; for a whole sheet, that of the first row.
    pub given: String,
    /// The figure as it follows from the group's own earlier ones, to as many
    /// significant figures as were given, in the unit that was given.
    pub expected: String,
    /// The next best explanation, where another explains the figure as well.
    pub rival: Option<Slip>,
    /// The right turn written out; none for a remark.
    pub arithmetic: Sum,
}

/// How a figure of the group's stands beside ours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It agrees.
    Right,
    /// It does not.
    Wrong,
    /// The box is blank, or nothing is known to judge it by.
    Unjudged,
}

/// One figure of the working, theirs beside ours.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// Index of the row; `None` for a figure of the whole sheet.
    pub row: Option<usize>,
    /// Which figure.
    pub field: Field,
    /// Theirs, as typed, with its unit; `None` where the box is blank.
    pub given: Option<String>,
    /// What follows from their own earlier figures, in the unit and to the
    /// figures of theirs (three where the box is blank); `None` where a
    /// reading is missing.
    pub follows: Option<String>,
    /// The same written out.
    pub arithmetic: Sum,
    /// Whether theirs agrees.
    pub verdict: Verdict,
    /// The unit in which theirs was read, where they gave none.
    pub read_in: Option<Unit>,
}

/// All that the working of a sheet shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Judgement {
    /// Slips and remarks, in the order of the work.
    pub flags: Vec<Flag>,
    /// Each figure of the working, theirs beside ours.
    pub comparisons: Vec<Comparison>,
}
