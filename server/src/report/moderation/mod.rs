//! Moderation rounds: what was marked first, what is drawn of it, and what
//! second markers see.

pub mod anchors;
pub mod cohort;
pub mod comparison;
pub mod draw;
pub mod line;
pub mod may_see;
pub mod pairs;
pub mod record;
pub mod settling;
pub mod standard;
pub mod workload;

use crate::db::round_sheet::RoundSheet;
use crate::ids::ClassSetId;

/// Returns the name of a sheet in draws: `12/A`, the number of its class set
/// and the label of its group, as in the address of its page. What is drawn
/// can be drawn again by anybody who knows these.
#[must_use]
pub fn name(class_set: ClassSetId, label: &str) -> String {
    format!("{class_set}/{label}")
}

impl RoundSheet {
    /// Returns its name in draws.
    #[must_use]
    pub fn name(&self) -> String {
        name(self.class_set_id, &self.label)
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
