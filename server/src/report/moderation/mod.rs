//! Moderation rounds: what was marked first, what is drawn of it, and what
//! second markers see.

pub mod anchors;
pub mod cohort;
pub mod comparison;
pub mod draw;
mod former;
pub mod line;
pub mod may_see;
pub mod pairs;
pub mod record;
pub mod settling;
pub mod standard;
pub mod verdict;
pub mod workload;

use crate::clock::long_date;
use crate::db::round::{ClassSetOfRound, Round, Step};
use crate::db::round_sheet::RoundSheet;
use crate::ids::ClassSetId;

/// The name of a sheet in draws: `12/A`, the number of its class set and the
/// label of its group, as in the address of its page. What is drawn can be
/// drawn again by anybody who knows these.
#[must_use]
pub fn name(class_set: ClassSetId, label: &str) -> String {
    format!("{class_set}/{label}")
}

/// Writes a class set as staff call it: `10B/Ph2, 24 November 2026`.
#[must_use]
pub fn class_called(class_name: &str, held_on: &str) -> String {
    format!("{class_name}, {}", long_date(held_on))
}

/// Writes a sheet as staff call it: `10B/Ph2, 24 November 2026, group A`.
#[must_use]
pub fn sheet_called(class_name: &str, held_on: &str, label: &str) -> String {
    format!("{}, group {label}", class_called(class_name, held_on))
}

impl ClassSetOfRound {
    /// Returns what staff call it.
    #[must_use]
    pub fn called(&self) -> String {
        class_called(&self.class_name, &self.held_on)
    }
}

impl RoundSheet {
    /// Returns its name in draws.
    #[must_use]
    pub fn name(&self) -> String {
        name(self.class_set_id, &self.label)
    }

    /// Returns what staff call it.
    #[must_use]
    pub fn called(&self) -> String {
        sheet_called(&self.class_name, &self.held_on, &self.label)
    }
}

impl Round {
    /// Returns where it stands, in words.
    #[must_use]
    pub fn stands(&self) -> &'static str {
        match self.step {
            None => "Made, not begun",
            Some(Step::Standard) => "Everyone marks the anchors",
            Some(Step::StandardShown) => "The standard is shown; no sample drawn yet",
            Some(Step::Drawn) => "The sample is marked a second time",
            Some(Step::Shown) => "First and second marks are side by side",
            Some(Step::Closed) => "Closed",
        }
    }
}

impl Step {
    /// Returns what was done, in words.
    #[must_use]
    pub fn done(self) -> &'static str {
        match self {
            Self::Standard => "Anchors picked",
            Self::StandardShown => "Everyone’s marks of the anchors shown",
            Self::Drawn => "Sample drawn",
            Self::Shown => "Second marks shown beside the first",
            Self::Closed => "Closed",
        }
    }
}

/// Names in the order in which they come, each once.
#[must_use]
pub fn each_once<'a>(names: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let mut each = Vec::new();
    for name in names {
        if !each.contains(&name) {
            each.push(name);
        }
    }
    each
}
