//! Moderation rounds: what was marked first, what is drawn of it, and what
//! second markers see.

pub mod anchors;
pub mod cohort;
pub mod comparison;
pub mod draw;
mod former;
pub mod may_see;
pub mod pairs;
pub mod record;
pub mod ruling;
pub mod settling;
pub mod standard;
pub mod verdict;
pub mod workload;

use crate::db::round::Step;
use crate::ids::ClassSetId;

/// The name of a sheet in draws: `12/A`, the number of its class set and the
/// label of its group, as in the address of its page. What is drawn can be
/// drawn again by anybody who knows these.
#[must_use]
pub fn name(class_set: ClassSetId, label: &str) -> String {
    format!("{class_set}/{label}")
}

/// What was done, in words.
#[must_use]
pub fn step_words(step: Step) -> &'static str {
    match step {
        Step::Standard => "Anchors picked",
        Step::StandardShown => "Everyone’s marks of the anchors shown",
        Step::Drawn => "Sample drawn",
        Step::Shown => "Second marks shown beside the first",
        Step::Closed => "Closed",
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
