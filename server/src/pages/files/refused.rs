//! The page of a file from which nothing can be taken.

use super::plan::Refusal;
use super::stored::Stored;
use crate::clock::long_date;
use crate::db::class_set::ClassSet;
use crate::files::fault::Fault;
use crate::layout::Layout;

/// So many faults are shown: more of them have one cause.
const MOST_SHOWN: usize = 100;

#[derive(askama::Template)]
#[template(path = "files/refused.html")]
pub(super) struct RefusedPage {
    layout: Layout,
    class_set: ClassSet,
    practical: &'static str,
    date: String,
    faults: Vec<Fault>,
    /// How many more there are.
    more: usize,
    /// Why nothing in the file is for this class set.
    left_aside: Vec<String>,
    /// What is wrong with the file chosen next: nothing yet.
    wrong: Option<&'static str>,
}

impl RefusedPage {
    pub(super) fn new(layout: Layout, stored: Stored, refusal: Refusal) -> Self {
        let (mut faults, left_aside) = match refusal {
            Refusal::Faults(faults) => (faults, Vec::new()),
            Refusal::NothingHere(left_aside) => (Vec::new(), left_aside),
        };
        let more = faults.len().saturating_sub(MOST_SHOWN);
        faults.truncate(MOST_SHOWN);
        Self {
            layout,
            practical: crate::words::title(stored.method),
            date: long_date(&stored.class_set.held_on),
            class_set: stored.class_set,
            faults,
            more,
            left_aside,
            wrong: None,
        }
    }
}
