//! Remarks: figures and units.

use crate::field::{Field, Role};
use crate::figure::Figure;
use crate::sheet::{Entries, Entry, Sheet};
use crate::slip::Slip;
use crate::sum::Sum;

use super::{Comparison, Flag, Verdict};

/// Fewer significant figures than this are too few, where the readings carry
/// more.
const FEWEST: u32 = 2;

/// How many significant figures more than the readings carry are too many.
const TOO_MANY: u32 = 2;

pub(super) fn remark(sheet: &Sheet, comparisons: &[Comparison], flags: &mut Vec<Flag>) {
    for field in sheet.method.fields() {
        column(sheet, field, Slip::UnitMissing, flags, &|_, entry| {
            field.asks_unit() && entry.unit.is_none()
        });
        // An uncertainty is rightly given to one figure.
        if field.role() != Role::Working || field == Field::Uncertainty {
            continue;
        }
        column(sheet, field, Slip::TooFewFigures, flags, &|row, entry| {
            let compared = comparisons
                .iter()
                .find(|c| c.field == field && c.row == row);
            let shown = shown(entry, compared);
            shown < FEWEST && finest(sheet, field, row).is_none_or(|carried| carried > shown)
        });
        column(sheet, field, Slip::TooManyFigures, flags, &|row, entry| {
            // `5` on a dial is not held against anyone.
            coarsest(sheet, field, row).is_some_and(|carried| {
                entry.figure.least_figures() >= carried.max(FEWEST) + TOO_MANY
            })
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

/// The figures that an entry shows: its final noughts too, where it agrees to
/// the last of them. `20` for 22.4 shows one.
fn shown(entry: &Entry, compared: Option<&Comparison>) -> u32 {
    let figure = &entry.figure;
    let rounded = compared
        .filter(|c| c.verdict == Verdict::Right && c.field != Field::Gradient)
        .and_then(|c| Figure::parse(c.follows.as_deref()?).ok()?)
        .is_some_and(|ours| (ours.value() - figure.value()).abs() > figure.resolution());
    if rounded {
        figure.least_figures()
    } else {
        figure.figures()
    }
}

/// The significant figures that the readings behind a figure of a row carry;
/// behind one of the whole sheet, those of the coarsest row.
fn coarsest(sheet: &Sheet, field: Field, row: Option<usize>) -> Option<u32> {
    carried(sheet, field, row).into_iter().min()
}

/// The same; behind a figure of the whole sheet, those of the finest row.
fn finest(sheet: &Sheet, field: Field, row: Option<usize>) -> Option<u32> {
    carried(sheet, field, row).into_iter().max()
}

/// The significant figures that the coarsest reading behind a figure carries,
/// in each row that feeds it. Counted numbers are exact.
fn carried(sheet: &Sheet, field: Field, row: Option<usize>) -> Vec<u32> {
    let measured = sheet.method.measured(field);
    let in_entries = |entries: &Entries| -> Option<u32> {
        let entries = measured.iter().filter_map(|f| entries.get(*f));
        entries.map(|entry| entry.figure.figures()).min()
    };
    let of_sheet = in_entries(&sheet.whole);
    let rows = sheet
        .rows
        .iter()
        .enumerate()
        .filter(|(at, _)| row.is_none_or(|row| row == *at));
    let in_rows: Vec<_> = rows.filter_map(|(_, r)| in_entries(&r.entries)).collect();
    match of_sheet {
        Some(of_sheet) if in_rows.is_empty() => vec![of_sheet],
        Some(of_sheet) => in_rows.into_iter().map(|row| row.min(of_sheet)).collect(),
        None => in_rows,
    }
}
