//! What there is on a sheet to earn marks with.

use super::{Suggestion, Why};
use crate::assess::Assessment;
use crate::field::Field;
use crate::sheet::{Row, Sheet};

/// A sheet with what was judged of it.
pub(super) struct Work<'a> {
    pub(super) sheet: &'a Sheet,
    pub(super) assessment: &'a Assessment,
}

impl Work<'_> {
    /// The rows whose readings are complete.
    pub(super) fn rows(&self) -> Vec<&Row> {
        let complete = self.assessment.rows.iter().zip(&self.sheet.rows);
        complete
            .filter(|(result, _)| result.speed.is_some())
            .map(|(_, row)| row)
            .collect()
    }

    /// How many complete rows have one of these figures worked out: the
    /// figure itself, or a later one that needs it.
    pub(super) fn worked(&self, fields: &[Field]) -> usize {
        let has = |row: &&&Row| fields.iter().any(|field| row.entries.get(*field).is_some());
        self.rows().iter().filter(has).count()
    }

    /// Whether the sheet has one of these figures.
    pub(super) fn has_whole(&self, field: Field) -> bool {
        self.sheet.whole.get(field).is_some()
    }
}

/// The share of a point's marks for figures that stand in so many of so many
/// rows: all of them from half of the rows on, half of them (rounded down)
/// below that.
pub(super) fn for_rows(marks: u32, worked: usize, of: usize) -> u32 {
    if worked == 0 {
        0
    } else if 2 * worked >= of {
        marks
    } else {
        marks / 2
    }
}

/// A suggestion that only counts what is there.
pub(super) fn counted(marks: u32, why: Why) -> Suggestion {
    Suggestion {
        marks,
        why,
        is_shown: false,
    }
}

/// A suggestion that rests on what the group's own figures show.
pub(super) fn shown(marks: u32, why: Why) -> Suggestion {
    Suggestion {
        marks,
        why,
        is_shown: true,
    }
}
