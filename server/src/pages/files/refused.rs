//! The page of a file from which nothing can be taken.

use super::plan::Refusal;
use super::stored::StoredClass;
use crate::db::class_set::ClassSet;
use crate::files::fault::Fault;
use crate::table::{PageTable, Table};
use crate::web::layout::Layout;

/// So many faults are shown: more of them have one cause.
const MOST_SHOWN: usize = 100;

#[derive(askama::Template)]
#[template(path = "files/refused.html")]
pub(super) struct RefusedPage {
    layout: Layout,
    class_set: ClassSet,
    /// How many faults there are; the table has the first of them.
    wrong_places: usize,
    table: PageTable,
    /// Why nothing in the file is for this class set.
    left_aside: Vec<String>,
    /// What is wrong with the file chosen next: nothing yet.
    wrong: Option<&'static str>,
}

impl RefusedPage {
    pub(super) fn new(layout: Layout, stored: StoredClass, refusal: Refusal) -> Self {
        let (faults, left_aside) = match refusal {
            Refusal::Faults(faults) => (faults, Vec::new()),
            Refusal::NothingHere(left_aside) => (Vec::new(), left_aside),
        };
        Self {
            layout,
            class_set: stored.class_set,
            wrong_places: faults.len(),
            table: table(&faults),
            left_aside,
            wrong: None,
        }
    }
}

fn table(faults: &[Fault]) -> PageTable {
    let title = "What is wrong in the file";
    let shown = &faults[..faults.len().min(MOST_SHOWN)];
    let caption = match faults.len() - shown.len() {
        0 => title.to_owned(),
        more => format!("{title}: the first {MOST_SHOWN} places, and {more} more"),
    };
    Table::of(shown)
        .figure("Line", |fault| fault.line)
        .text("Column", |fault| {
            fault.column.as_deref().unwrap_or("(whole line)")
        })
        .text("What is wrong", |fault| &fault.reason)
        .on_page(title, caption)
}
