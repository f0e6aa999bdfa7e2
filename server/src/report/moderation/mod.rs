//! Moderation rounds: what was marked first, what is drawn of it, and what
//! second markers see.

pub mod anchors;
pub mod cohort;
pub mod comparison;
pub mod draw;
pub mod pairs;
pub mod ruling;
pub mod second;
pub mod sizes;
pub mod standard;
pub mod verdict;

use crate::ids::ClassSetId;

/// The name of a sheet in draws: `12/A`, the number of its class set and the
/// label of its group, as in the address of its page. What is drawn can be
/// drawn again by anybody who knows these.
#[must_use]
pub fn name(class_set: ClassSetId, label: &str) -> String {
    format!("{class_set}/{label}")
}
