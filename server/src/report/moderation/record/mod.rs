//! The record of a closed round: everything by name, so that it says the same
//! whatever is renamed or marked later.
//!
//! The record must say the same when a class is renamed, a scheme has a new
//! version or a sheet is marked again. So it is JSON full of names, holds no id
//! that is looked up later, and is never rewritten: [`FORMAT`] is raised when
//! that changes. What a record of an earlier format says and no comparison says
//! any more is read and shown as it was (`comparison/former.rs`). Floats are
//! read back bit for bit (`float_roundtrip`), or the record would not be the
//! one that was stored.

mod make;

use std::collections::{BTreeMap, BTreeSet};

use analysis::moderation::comparison::Comparison;
use serde::{Deserialize, Serialize};

use super::each_once;
use super::line::{self, ComparisonLine};
use crate::db::settlement::Kind;
use crate::words::moderation::{class_called, decided, done, given, point_called, sheet_called};
use crate::words::number;

pub use make::make;

/// What a record looks like. Raised when a field changes its meaning; older
/// ones must stay readable.
///
/// Format 1 has figures of the comparison that are no longer worked out, which
/// the record's page never showed and which are left unread, and verdicts on
/// them ([`Former`](analysis::moderation::comparison::Former)), which are
/// shown as they always were.
pub const FORMAT: u32 = 2;

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
    pub class_sets: Vec<ClassSetLine>,
    pub markers: Vec<String>,
    /// What was done, oldest first: making it, and each step.
    pub steps: Vec<StepLine>,
    /// The anchors with everyone's marks; empty without a standard.
    pub anchors: Vec<AnchorLine>,
    /// The sample, in the order in which it was marked.
    pub sheets: Vec<SheetLine>,
    /// What was ruled in the round, oldest first.
    pub rulings: Vec<RulingLine>,
    /// Everything that was decided, oldest first.
    pub decisions: Vec<DecisionLine>,
    /// What was to be marked again for whole classes, and how far that had
    /// come.
    pub again: Vec<AgainLine>,
    /// The comparison. Its sheets, points and people are numbers.
    pub comparison: Comparison,
    /// What the people of the comparison are called.
    pub people: BTreeMap<i64, String>,
    /// What the points of the comparison are called.
    pub points: BTreeMap<i64, String>,
}

impl Record {
    /// Returns the lines of the comparison.
    #[must_use]
    pub fn lines(&self) -> Vec<ComparisonLine<'_>> {
        line::lines(&self.comparison, &self.people, &self.points)
    }

    /// Returns the points of the sample, each once, in the order of their
    /// numbers.
    #[must_use]
    pub fn columns(&self) -> Vec<&PointLine> {
        let mut points: Vec<&PointLine> = self.sheets.iter().flat_map(|s| &s.points).collect();
        points.sort_by_key(|point| (point.number, point.key));
        let mut seen = BTreeSet::new();
        points.retain(|point| seen.insert(point.key));
        points
    }

    /// Returns a class set by its class and date. Returns no text when it has
    /// none of this number.
    #[must_use]
    pub fn class_set(&self, id: i64) -> String {
        let set = self.class_sets.iter().find(|set| set.id == id);
        set.map_or_else(String::new, ClassSetLine::called)
    }

    /// Returns what a decision is about, the sheet or the class.
    #[must_use]
    pub fn about(&self, decision: &DecisionLine) -> String {
        match &decision.sheet {
            Some(sheet) => sheet.called(),
            None => self.class_set(decision.class_set.unwrap_or(0)),
        }
    }
}

impl ClassSetLine {
    /// Returns what staff call it.
    #[must_use]
    pub fn called(&self) -> String {
        class_called(&self.class, &self.held_on)
    }
}

impl SheetName {
    /// Returns what staff call it.
    #[must_use]
    pub fn called(&self) -> String {
        sheet_called(&self.class, &self.held_on, &self.label)
    }
}

impl SheetLine {
    /// Returns the names of those who gave its first marks.
    #[must_use]
    pub fn first_by(&self) -> String {
        let first = self.points.iter().filter_map(|point| point.first.as_ref());
        each_once(first.map(|mark| mark.by.as_str())).join(", ")
    }

    /// Returns by how much the second total is above the first.
    #[must_use]
    pub fn apart(&self) -> Option<i64> {
        Some(self.second? - self.first?)
    }

    /// Returns both marks of a point, and the one that stood in the end where
    /// it is another than the first: `2, 4 → 3`. Blank of a point that the
    /// sheet has not.
    #[must_use]
    pub fn marks(&self, key: i64) -> String {
        let Some(point) = self.points.iter().find(|point| point.key == key) else {
            return String::new();
        };
        let [first, second, stands] =
            [&point.first, &point.second, &point.stands].map(|mark| mark.as_ref().map(|m| m.marks));
        let both = format!("{}, {}", number::marks(first), number::marks(second));
        if stands == first {
            both
        } else {
            format!("{both} → {}", number::marks(stands))
        }
    }
}

impl DecisionLine {
    /// Returns what was decided and of which point, in words.
    #[must_use]
    pub fn what(&self) -> String {
        let (kind, agreed) = match self.decided {
            Decided::FirstStands => (Kind::FirstStands, None),
            Decided::Agreed(marks) => (Kind::Agreed, Some(marks)),
            Decided::Again => (Kind::Again, None),
            Decided::NotAgain => (Kind::NotAgain, None),
        };
        decided(kind.code(), agreed, self.point.as_deref())
    }
}

impl AgainLine {
    /// Returns which points are marked again, in words.
    #[must_use]
    pub fn what(&self) -> String {
        point_called(self.point.as_deref())
    }
}

impl StepLine {
    /// Returns it in words.
    #[must_use]
    pub fn what(&self) -> &str {
        done(&self.what)
    }
}

impl MarkLine {
    /// Returns why it was given. Blank where nothing was said.
    #[must_use]
    pub fn says(&self) -> String {
        match &self.settled {
            Some(Settled { kind, round }) => given(kind, round, &self.why),
            None => self.why.clone(),
        }
    }
}

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
    /// Its code. In older records what it says.
    pub what: String,
    /// By whom.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetName {
    /// Number of its class set.
    pub class_set: i64,
    pub class: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
    /// Label of the group.
    pub label: String,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnchorLine {
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
    pub title: String,
    /// In the order of [`Record::markers`]; `None`: no mark.
    pub marks: Vec<Option<i64>>,
}

/// A sheet of the sample.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetLine {
    /// Its number in the comparison.
    pub id: i64,
    pub sheet: SheetName,
    /// Which rule took it.
    pub why: String,
    /// Who had it to mark a second time.
    pub second_marker: String,
    /// All first marks together; `None`: not every point has one.
    pub first: Option<i64>,
    /// All second marks.
    pub second: Option<i64>,
    /// All marks that stood when the round was closed.
    pub stands: Option<i64>,
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
    pub first: Option<MarkLine>,
    pub second: Option<MarkLine>,
    /// The mark that stood when the round was closed; `None`: none did.
    pub stands: Option<MarkLine>,
    /// Whether that is another than was settled, and nobody had decided that
    /// the point is marked again: somebody marked it outside the round.
    pub is_marked_since: bool,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct MarkLine {
    /// How many.
    pub marks: i64,
    /// By whom.
    pub by: String,
    /// Unix ms.
    pub at: i64,
    /// Why, as it was typed; blank where nothing was said. In older records
    /// also what [`MarkLine::says`] says of a settlement.
    pub why: String,
    /// The settlement that gave it; `None`: none, or the record is older.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub settled: Option<Settled>,
}

/// The settlement that gave a mark.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settled {
    /// Code of what was decided.
    pub kind: String,
    /// Name of the round in which that was.
    pub round: String,
}

/// Something that was decided, be it decided anew later.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DecisionLine {
    /// The sheet that it is about; `None`: a whole class.
    pub sheet: Option<SheetName>,
    /// Number of that class set; `None`: a sheet.
    pub class_set: Option<i64>,
    /// The point; `None`: all of them.
    pub point: Option<String>,
    pub decided: Decided,
    pub reason: String,
    /// Who wrote it down.
    pub by: String,
    /// Unix ms.
    pub at: i64,
    /// Whether the same was decided anew later.
    pub is_replaced: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Decided {
    /// The first mark stands, or all of a sheet's.
    FirstStands,
    /// The pair agreed so many marks.
    Agreed(i64),
    /// It is marked again.
    Again,
    /// It is not marked again after all.
    NotAgain,
}

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
    /// Marks that there were.
    pub of: i64,
    /// How many had been given anew when the round was closed.
    pub done: i64,
}
