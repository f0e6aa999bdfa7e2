//! Remarks: figures and units.

use crate::field::{Field, Role};
use crate::sheet::{Entries, Entry, Sheet};
use crate::slip::Slip;
use crate::sum::Sum;

use super::Flag;

/// How many significant figures more than the readings carry are too many.
const TOO_MANY: u32 = 2;

pub(super) fn remark(sheet: &Sheet, flags: &mut Vec<Flag>) {
    for field in sheet.method.fields() {
        column(sheet, field, Slip::UnitMissing, flags, &|_, entry| {
            field.asks_unit() && entry.unit.is_none()
        });
        // An uncertainty is rightly given to one figure.
        if field.role() != Role::Working || field == Field::Uncertainty {
            continue;
        }
        column(sheet, field, Slip::TooFewFigures, flags, &|_, entry| {
            entry.figure.figures() < 2
        });
        column(sheet, field, Slip::TooManyFigures, flags, &|row, entry| {
            carried(sheet, field, row)
                .is_some_and(|carried| entry.figure.least_figures() >= carried + TOO_MANY)
        });
    }
}

/// Remarks on a column: once where it holds for every row that has the
/// figure, else row by row.
fn column(
    sheet: &Sheet,
    field: Field,
    slip: Slip,
    flags: &mut Vec<Flag>,
    holds: &dyn Fn(Option<usize>, &Entry) -> bool,
) {
    let flag = |row, entry: &Entry| Flag {
        row,
        step: field,
        slip,
        given: entry.figure.text().trim().to_owned(),
        expected: String::new(),
        rival: None,
        arithmetic: Sum::None,
    };
    if let Some(entry) = sheet.whole.get(field) {
        flags.extend(holds(None, entry).then(|| flag(None, entry)));
        return;
    }
    let given: Vec<_> = sheet
        .rows
        .iter()
        .enumerate()
        .filter_map(|(row, r)| Some((row, r.entries.get(field)?)))
        .collect();
    let found: Vec<_> = given
        .iter()
        .filter(|(row, entry)| holds(Some(*row), entry))
        .collect();
    if found.len() > 1 && found.len() == given.len() {
        flags.push(flag(None, found[0].1));
    } else {
        flags.extend(
            found
                .into_iter()
                .map(|(row, entry)| flag(Some(*row), entry)),
        );
    }
}

/// The significant figures that the readings behind a figure carry: those of
/// the coarsest, and two at the least (`5` on a dial is not held against
/// anyone). Counted numbers are exact.
fn carried(sheet: &Sheet, field: Field, row: Option<usize>) -> Option<u32> {
    let measured = sheet.method.measured(field);
    let in_entries = |entries: &Entries| -> Option<u32> {
        let figures = measured
            .iter()
            .filter_map(|f| entries.get(*f))
            .map(|e| e.figure.figures());
        figures.min().map(|least| least.max(2))
    };
    let rows = sheet
        .rows
        .iter()
        .enumerate()
        .filter(|(at, _)| row.is_none_or(|row| row == *at));
    rows.filter_map(|(_, r)| in_entries(&r.entries))
        .chain(in_entries(&sheet.whole))
        .min()
}
