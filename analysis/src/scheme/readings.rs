//! Checks of the readings: how many, how many at once, how fine.
//!
//! Common practice, no source: the numbers are those that the practical is
//! taught with.

use std::collections::BTreeSet;

use super::evidence::{Work, counted};
use super::{Suggestion, Why};
use crate::field::Field;
use crate::sheet::Entry;

/// A good practical has so many frequencies.
const ENOUGH_FREQUENCIES: usize = 5;

/// A length is read to the millimetre. (A figure's resolution is a power of
/// ten times its unit: this only allows for floating point.)
const MILLIMETRE: f64 = 0.001_000_1;

pub(super) fn enough_frequencies(work: &Work<'_>, marks: u32) -> Suggestion {
    let rows = work.assessment.rows.iter();
    let first_of_each = rows.filter(|row| row.speed.is_some() && row.repeats.is_none());
    let found = first_of_each.count();
    let missing = u32::try_from(ENOUGH_FREQUENCIES.saturating_sub(found)).unwrap_or(marks);
    let earned = if found == 0 {
        0
    } else {
        marks.saturating_sub(missing)
    };
    counted(earned, Why::Frequencies(found, ENOUGH_FREQUENCIES))
}

pub(super) fn repeats(work: &Work<'_>, marks: u32) -> Suggestion {
    let rows = &work.assessment.rows;
    let complete = rows.iter().filter(|row| row.speed.is_some());
    let repeated: BTreeSet<usize> = complete.filter_map(|row| row.repeats).collect();
    let found = u32::try_from(repeated.len()).unwrap_or(marks);
    counted(found.min(marks), Why::Repeats(repeated.len()))
}

pub(super) fn many_waves(work: &Work<'_>, marks: u32) -> Suggestion {
    let rows = work.rows();
    let length = work.sheet.method.length();
    let lengths = rows.iter().filter_map(|row| row.entries.si(length));
    let longest = lengths.fold(0.0, f64::max);
    let many = &work.sheet.method.spec().marks.many;
    let good = rows.iter().filter(|row| (many.has)(row, longest)).count();
    let why = Why::ManyWaves(good, rows.len(), work.sheet.method);
    counted(for_most(marks, good, rows.len()), why)
}

pub(super) fn resolution(work: &Work<'_>, marks: u32) -> Suggestion {
    let lengths = lengths(work);
    let fine = lengths.iter().filter(|entry| is_fine(entry)).count();
    let why = Why::Millimetre(fine, lengths.len());
    counted(for_most(marks, fine, lengths.len()), why)
}

/// The lengths that are read with a ruler.
fn lengths<'w>(work: &'w Work<'_>) -> Vec<&'w Entry> {
    let whole = [Field::ScaleImage, Field::ScaleTrue];
    let whole = whole.into_iter().filter_map(|f| work.sheet.whole.get(f));
    let length = work.sheet.method.length();
    let rows = work.sheet.rows.iter();
    whole
        .chain(rows.filter_map(|row| row.entries.get(length)))
        .collect()
}

fn is_fine(entry: &Entry) -> bool {
    entry.resolution() <= MILLIMETRE
}

/// All marks where all have it, or all but one of five or more; one less
/// where most have it; none else.
fn for_most(marks: u32, good: usize, of: usize) -> u32 {
    let may_lack = usize::from(of >= 5);
    if of > 0 && good > 0 && good + may_lack >= of {
        marks
    } else if 2 * good > of {
        marks - 1
    } else {
        0
    }
}
