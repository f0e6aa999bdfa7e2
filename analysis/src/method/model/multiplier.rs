//! A dial's multiplier that was not written down.

use crate::cause::Cause;
use crate::entry::Entries;
use crate::field::Field;
use crate::method::prior::rate;

use super::observe::Seen;
use super::part::{Change, Mend, Part};

/// Whether a row's dial stands without a multiplier.
fn lacks_multiplier(entries: &Entries) -> bool {
    let times = entries.si(Field::DialTimes);
    let is_one = times.is_none_or(|times| (times - 1.0).abs() < 0.5);
    entries.get(Field::Dial).is_some() && is_one
}

/// The dial on 10 or on 100, in every row or in one.
fn left_out(sheet: &Seen<'_>, at: Option<usize>, rate: f64) -> Vec<Part> {
    let times = |times| {
        Part::whole(
            Cause::DialMultiplierLeftOut,
            Field::DialTimes,
            Change::frequency(sheet.seen, at, times),
            Mend::Multiplier(times),
            rate / 2.0,
        )
    };
    [10.0, 100.0].map(times).into()
}

/// Not written down in any row.
pub(crate) fn of_sheet(sheet: &Seen<'_>) -> Vec<Part> {
    let lacks = |at| lacks_multiplier(sheet.entries(at));
    if (0..sheet.seen.rows.len()).all(lacks) {
        left_out(sheet, None, rate::MULTIPLIER)
    } else {
        Vec::new()
    }
}

/// Not written down in one row.
pub(crate) fn of_row(sheet: &Seen<'_>, at: usize) -> Vec<Part> {
    let rows = &sheet.seen.rows;
    // The one row that there is is the whole sheet.
    if rows.len() < 2 || !lacks_multiplier(sheet.entries(at)) {
        return Vec::new();
    }
    let parts = left_out(sheet, Some(at), rate::MULTIPLIER_ROW).into_iter();
    parts.map(|part| part.of_row(rows[at].row)).collect()
}
