//! One sheet of a year in a line: what the list of sheets and the page of a
//! class show.

use analysis::figure::significant;
use analysis::year::Made;

use super::asked::OneByOne;
use crate::clock::long_date;
use crate::ids::ClassSetId;
use crate::report::year::words::{self, slip};

/// A sheet.
pub(super) struct SheetLine {
    pub(super) class_set: ClassSetId,
    pub(super) class: String,
    /// `24 November 2026`.
    pub(super) date: String,
    pub(super) group: String,
    pub(super) practical: &'static str,
    /// What it wrote for its kit.
    pub(super) kit: String,
    /// In m/s, to three figures; blank where there is none.
    pub(super) speed: String,
    pub(super) expected: String,
    pub(super) ratio: String,
    /// In a few words each, whether shown, and whether it is one at all: a
    /// fault of the apparatus is none.
    pub(super) slips: Vec<(&'static str, bool)>,
    /// Whether its readings hold a slip that a teacher confirmed.
    pub(super) is_slipped: bool,
    /// Marks ÷ full marks in whole per cent; blank where it is not marked.
    pub(super) mark: String,
}

impl SheetLine {
    /// The sheet in this place of the year.
    pub(super) fn of(loaded: &OneByOne, at: usize) -> Self {
        let sheet = &loaded.sheets.year.sheets[at];
        let lesson = &loaded.frame.lessons[sheet.lesson];
        let judgement = &sheet.judgement;
        let figure = |value: Option<f64>| value.map_or_else(String::new, |v| significant(v, 3));
        let slips = sheet.made.iter();
        Self {
            class_set: lesson.id,
            class: lesson.class_name.clone(),
            date: long_date(&lesson.held_on),
            group: loaded.sheets.labels[at].clone(),
            practical: crate::words::title(loaded.sheets.year.lesson(sheet).method),
            kit: loaded.sheets.kits_as_written[at].clone(),
            speed: figure(judgement.speed),
            expected: figure(judgement.expected),
            ratio: words::ratio(judgement.log_ratio().map(f64::exp)),
            slips: slips
                .map(|made| (slip::short(*made), matches!(made, Made::Shown(_))))
                .collect(),
            is_slipped: sheet.is_slipped,
            mark: sheet
                .mark
                .map_or_else(String::new, |mark| format!("{:.0} %", 100.0 * mark)),
        }
    }
}
