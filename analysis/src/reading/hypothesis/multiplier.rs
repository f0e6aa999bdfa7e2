//! A dial's multiplier that was not written down.

use crate::field::Field;
use crate::sheet::{Entries, Sheet};

use super::super::cause::Cause;
use super::super::observe::Observed;
use super::super::prior::rate;
use super::{Mend, Part, entries, frequency_change, whole};

/// Whether a row's dial stands without a multiplier.
fn lacks_multiplier(entries: &Entries) -> bool {
    let times = entries.si(Field::DialTimes);
    let is_one = times.is_none_or(|times| (times - 1.0).abs() < 0.5);
    entries.get(Field::Dial).is_some() && is_one
}

/// Not written down in any row.
pub(super) fn of_sheet(sheet: &Sheet, seen: &Observed) -> Vec<Part> {
    let lacks = |at| lacks_multiplier(entries(sheet, seen, at));
    if !(0..seen.rows.len()).all(lacks) {
        return Vec::new();
    }
    let times = |times| {
        whole(
            Cause::DialMultiplierLeftOut,
            Field::DialTimes,
            frequency_change(seen, None, times),
            Mend::Multiplier(times),
            rate::MULTIPLIER / 2.0,
        )
    };
    [10.0, 100.0].map(times).into()
}

/// Not written down in one row.
pub(super) fn of_row(sheet: &Sheet, seen: &Observed, at: usize) -> Vec<Part> {
    // The one row that there is is the whole sheet.
    if seen.rows.len() < 2 || !lacks_multiplier(entries(sheet, seen, at)) {
        return Vec::new();
    }
    let times = |times| Part {
        row: Some(seen.rows[at].row),
        prior: rate::MULTIPLIER_ROW / 2.0,
        ..whole(
            Cause::DialMultiplierLeftOut,
            Field::DialTimes,
            frequency_change(seen, Some(at), times),
            Mend::Multiplier(times),
            0.0,
        )
    };
    [10.0, 100.0].map(times).into()
}
