//! The record of a closed round: everything by name, so that it says the same
//! whatever is renamed or marked later.

mod close;
mod make;

use std::collections::BTreeMap;

use analysis::moderation::comparison::Comparison;
use serde::{Deserialize, Serialize};

pub use close::{Closing, close};

/// What a record looks like. Raised when a field changes its meaning; older
/// ones must stay readable.
pub const FORMAT: u32 = 1;

/// The record of a round.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// [`FORMAT`] when it was written.
    pub format: u32,
    /// What staff call the round.
    pub name: String,
    /// Name of the scheme.
    pub scheme: String,
    /// Code of its method.
    pub method: String,
    /// From which the sample was drawn.
    pub seed: String,
    /// Its class sets.
    pub class_sets: Vec<ClassSetLine>,
    /// Its markers.
    pub markers: Vec<String>,
    /// What was done, oldest first: making it, and each step.
    pub steps: Vec<StepLine>,
    /// The anchors with everyone's marks; empty without a standard.
    pub anchors: Vec<AnchorLine>,
    /// The sample, in the order in which it was marked.
    pub sheets: Vec<SheetLine>,
    /// What was ruled in the round, oldest first.
    pub rulings: Vec<RulingLine>,
    /// What was to be marked again for whole classes.
    pub again: Vec<AgainLine>,
    /// The comparison. Its sheets, points and people are numbers.
    pub comparison: Comparison,
    /// What the people of the comparison are called.
    pub people: BTreeMap<i64, String>,
    /// What the points of the comparison are called.
    pub points: BTreeMap<i64, String>,
}

/// A class set.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ClassSetLine {
    /// Its number.
    pub id: i64,
    /// Name of its class.
    pub class: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
}

/// Something that was done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepLine {
    /// In words.
    pub what: String,
    /// By whom.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

/// Where a sheet is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetName {
    /// Number of its class set.
    pub class_set: i64,
    /// Name of the class.
    pub class: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
    /// Label of the group.
    pub label: String,
}

/// An anchor.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnchorLine {
    /// Which sheet.
    pub sheet: SheetName,
    /// Each marker's total, in the order of [`Record::markers`]; `None`:
    /// unfinished.
    pub totals: Vec<Option<i64>>,
    /// Points on which two of them differ: what each gave.
    pub differing: Vec<DifferingPoint>,
}

/// A point of an anchor on which markers differ.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DifferingPoint {
    /// The point.
    pub title: String,
    /// In the order of [`Record::markers`]; `None`: no mark.
    pub marks: Vec<Option<i64>>,
}

/// A sheet of the sample.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetLine {
    /// Its number in the comparison.
    pub id: i64,
    /// Which sheet.
    pub sheet: SheetName,
    /// Which rule took it.
    pub why: String,
    /// All first marks together; `None`: not every point has one.
    pub first: Option<i64>,
    /// All second marks.
    pub second: Option<i64>,
    /// All marks as they were settled.
    pub settled: Option<i64>,
    /// That all its first marks stand, where it was said.
    pub whole: Option<DecisionLine>,
    /// Its points, in their order.
    pub points: Vec<PointLine>,
}

/// A point of a sheet of the sample.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PointLine {
    /// Its number in the comparison: its key in the scheme.
    pub key: i64,
    /// Its place in the scheme, from 1.
    pub number: i64,
    /// What it asks.
    pub title: String,
    /// At most so many marks.
    pub most: i64,
    /// The first mark.
    pub first: Option<MarkLine>,
    /// The second.
    pub second: Option<MarkLine>,
    /// The mark by what was settled.
    pub settled: Option<i64>,
    /// What was decided, where anything was.
    pub decision: Option<DecisionLine>,
    /// Whether it is to be marked again for the whole class.
    pub is_again: bool,
}

/// A mark.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct MarkLine {
    /// How many.
    pub marks: i64,
    /// By whom.
    pub by: String,
    /// Unix ms.
    pub at: i64,
    /// Why; blank where nothing was said.
    pub why: String,
}

/// What was decided on a difference.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DecisionLine {
    /// The mark that was agreed; `None`: the first stands.
    pub agreed: Option<i64>,
    /// Why.
    pub reason: String,
    /// Who wrote it down.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

/// A ruling.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RulingLine {
    /// The point.
    pub title: String,
    /// What was agreed; blank took the one before away.
    pub body: String,
    /// Who wrote it down.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

/// Something that is marked again for a whole class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AgainLine {
    /// Number of the class set.
    pub class_set: i64,
    /// The point; `None`: all of them.
    pub point: Option<String>,
    /// Why.
    pub reason: String,
    /// Who wrote it down.
    pub by: String,
    /// Unix ms.
    pub at: i64,
    /// Marks that there were.
    pub of: i64,
    /// How many had been given anew when the round was closed.
    pub done: i64,
}
