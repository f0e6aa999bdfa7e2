//! A marking point: what it asks, how many marks it has, who judges it.

use serde::{Deserialize, Serialize};

use super::Check;

/// One thing that earns marks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Point {
    /// What is asked, in a line: *Frequency, with the dial's multiplier*.
    pub title: String,
    /// For markers: what earns the marks; blank where the title says it.
    pub guidance: String,
    /// At most so many, 1 to 20.
    pub marks: u32,
    /// How it is judged.
    pub judged: Judged,
    /// What earns how many marks, best first; empty where nothing is said.
    pub levels: Vec<Level>,
}

/// How a point is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Judged {
    /// A check suggests its marks.
    ByCheck(Check),
    /// By eye: on what the group wrote in answer to a question, or on paper.
    ByEye(Option<Answer>),
}

coded! {
    /// A question that a group answers in its own words, in the order of the
    /// sheet.
    pub enum Answer {
        /// How it measured.
        Method = "method",
        /// What it found.
        Conclusion = "conclusion",
        /// What was good and what was not.
        Evaluation = "evaluation",
    }
}

/// A band of marks with what earns them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Level {
    /// Least marks of the level.
    pub from: u32,
    /// Most marks of the level, at least `from`.
    pub to: u32,
    /// What work at this level is like.
    pub says: String,
}
