//! Reading the boxes of a typed sheet, and what is wrong with each.

use crate::field::{Field, Place};
use crate::figure::Figure;
use crate::method::Method;
use crate::unit::{Quantity, Unit};

use super::{BoxFault, Cell, Cells, Entries, Entry, Problem, Row, Sheet, TypedSheet, noughts};

/// Above this, in SI units, no figure of a bench sheet can be (a speed of
/// light in mm/s stays below it).
const LARGEST: f64 = 1e12;

/// Counts of crests and loops above this would not have been counted.
const LARGEST_COUNT: f64 = 100_000.0;

pub(super) fn sheet(typed: &TypedSheet) -> Result<Sheet, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut whole = cells(
        typed.method,
        &typed.whole,
        Place::Sheet,
        None,
        &mut problems,
    );
    let mut rows: Vec<_> = typed
        .rows
        .iter()
        .enumerate()
        .map(|(index, row)| {
            let entries = cells(
                typed.method,
                &row.cells,
                Place::Row,
                Some(index),
                &mut problems,
            );
            counted_upwards(&entries, index, &mut problems);
            Row {
                label: row.label.clone(),
                entries,
                left_out: row.left_out,
            }
        })
        .collect();
    if problems.is_empty() {
        noughts::settle(&mut whole, &mut rows);
        Ok(Sheet {
            method: typed.method,
            whole,
            rows,
        })
    } else {
        Err(problems)
    }
}

fn cells(
    method: Method,
    cells: &Cells,
    place: Place,
    row: Option<usize>,
    problems: &mut Vec<Problem>,
) -> Entries {
    let mut entries = Entries::default();
    for (&field, cell) in cells {
        let read = if method.has(field) && field.place() == place {
            entry(method, field, cell)
        } else if cell.text.trim().is_empty() {
            Ok(None)
        } else {
            Err((false, BoxFault::NotHere))
        };
        match read {
            Ok(Some(entry)) => {
                entries.insert(field, entry);
            }
            Ok(None) => {}
            Err((in_unit, fault)) => problems.push(Problem {
                row,
                field,
                in_unit,
                fault,
            }),
        }
    }
    entries
}

fn entry(method: Method, field: Field, cell: &Cell) -> Result<Option<Entry>, (bool, BoxFault)> {
    let text = bare_ratio(field, &cell.text);
    let Some(figure) = Figure::parse(text).map_err(|error| (false, error.into()))? else {
        return Ok(None);
    };
    let beside = unit_beside(field, &cell.unit)?;
    if let Some(unit) = figure.unit() {
        fits(field, unit).map_err(|fault| (false, fault))?;
    }
    let unit = figure.unit().or(beside);
    let entry = Entry::new(figure, unit, method.heading_unit(field));
    possible(field, &entry).map_err(|fault| (false, fault))?;
    Ok(Some(entry))
}

/// A ratio may be written with its sign: `×1.75`, `10x`.
fn bare_ratio(field: Field, text: &str) -> &str {
    if field.quantity() == Quantity::Ratio {
        text.trim()
            .trim_start_matches(['x', 'X', '×'])
            .trim_end_matches(['x', 'X', '×'])
    } else {
        text
    }
}

fn unit_beside(field: Field, text: &str) -> Result<Option<Unit>, (bool, BoxFault)> {
    if text.trim().is_empty() {
        return Ok(field.fixed_unit());
    }
    let short: String = text.trim().chars().take(20).collect();
    let unit = Unit::parse(text).ok_or((true, BoxFault::UnknownUnit(short)))?;
    fits(field, unit).map_err(|fault| (true, fault))?;
    Ok(Some(unit))
}

fn fits(field: Field, unit: Unit) -> Result<(), BoxFault> {
    if unit.quantity() == field.quantity() {
        Ok(())
    } else if field.quantity().units().is_empty() {
        Err(BoxFault::HasNoUnit)
    } else {
        Err(BoxFault::WrongUnit(unit))
    }
}

fn possible(field: Field, entry: &Entry) -> Result<(), BoxFault> {
    let value = entry.figure.value();
    let is_count = field.quantity() == Quantity::Count;
    let may_be_negative = matches!(field, Field::Gradient | Field::Temperature);
    if value < 0.0 && !may_be_negative {
        return Err(BoxFault::Negative);
    }
    if entry.si().abs() > LARGEST {
        return Err(BoxFault::TooLarge);
    }
    if is_count && !entry.figure.is_whole() {
        return Err(BoxFault::NotWhole);
    }
    if is_count && value > LARGEST_COUNT {
        return Err(BoxFault::TooLarge);
    }
    let may_be_nought = matches!(
        field,
        Field::FirstCrest
            | Field::PassesFirst
            | Field::Temperature
            | Field::Uncertainty
            | Field::Gradient
    );
    // A nought that was only rounded to nought would divide by nought later.
    if value == 0.0 && !may_be_nought {
        return Err(BoxFault::Nought);
    }
    Ok(())
}

/// A row's last number called must be above its first. A blank first number
/// is read as nought, as the practical teaches it.
fn counted_upwards(entries: &Entries, row: usize, problems: &mut Vec<Problem>) {
    for (first, last) in [
        (Field::FirstCrest, Field::LastCrest),
        (Field::PassesFirst, Field::PassesLast),
    ] {
        let Some(last_count) = entries.si(last) else {
            continue;
        };
        if last_count <= entries.si(first).unwrap_or(0.0) {
            problems.push(Problem {
                row: Some(row),
                field: last,
                in_unit: false,
                fault: BoxFault::NotAbove(first),
            });
        }
    }
}
