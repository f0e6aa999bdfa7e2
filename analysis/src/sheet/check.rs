//! Reading the boxes of a typed sheet, with a reason for each that is wrong.

use crate::field::{Field, Place};
use crate::figure::Figure;
use crate::method::Method;
use crate::unit::{Quantity, Unit};

use super::{Cell, Cells, Entries, Entry, Problem, Row, Sheet, TypedSheet};

/// Above this, in SI units, no figure of a bench sheet can be (a speed of
/// light in mm/s stays below it).
const LARGEST: f64 = 1e12;

/// Counts of crests and loops above this would not have been counted.
const LARGEST_COUNT: f64 = 100_000.0;

pub(super) fn sheet(typed: &TypedSheet) -> Result<Sheet, Vec<Problem>> {
    let mut problems = Vec::new();
    let whole = cells(
        typed.method,
        &typed.whole,
        Place::Sheet,
        None,
        &mut problems,
    );
    let rows = typed
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
            Err((
                false,
                format!("There is no box for “{}” here.", field.label()),
            ))
        };
        match read {
            Ok(Some(entry)) => {
                entries.insert(field, entry);
            }
            Ok(None) => {}
            Err((in_unit, reason)) => problems.push(Problem {
                row,
                field,
                in_unit,
                reason,
            }),
        }
    }
    entries
}

fn entry(method: Method, field: Field, cell: &Cell) -> Result<Option<Entry>, (bool, String)> {
    let text = bare_ratio(field, &cell.text);
    let Some(figure) = Figure::parse(text).map_err(|e| (false, e.to_string()))? else {
        return Ok(None);
    };
    let beside = unit_beside(field, &cell.unit)?;
    if let Some(unit) = figure.unit() {
        fits(field, unit).map_err(|reason| (false, reason))?;
    }
    let unit = figure.unit().or(beside);
    let entry = Entry::new(figure, unit, method.heading_unit(field));
    possible(field, &entry).map_err(|reason| (false, reason))?;
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

fn unit_beside(field: Field, text: &str) -> Result<Option<Unit>, (bool, String)> {
    if text.trim().is_empty() {
        return Ok(field.fixed_unit());
    }
    let short: String = text.trim().chars().take(20).collect();
    let unit = Unit::parse(text)
        .ok_or_else(|| (true, format!("“{short}” is not a unit that is used here.")))?;
    fits(field, unit).map_err(|reason| (true, reason))?;
    Ok(Some(unit))
}

fn fits(field: Field, unit: Unit) -> Result<(), String> {
    if unit.quantity() == field.quantity() {
        return Ok(());
    }
    let choices: Vec<_> = field
        .quantity()
        .units()
        .iter()
        .map(|u| u.symbol())
        .collect();
    Err(if choices.is_empty() {
        format!("The {} has no unit. Type the number only.", field.label())
    } else {
        format!(
            "The {} cannot be in {}. Use {}.",
            field.label(),
            unit.symbol(),
            choices.join(" or ")
        )
    })
}

fn possible(field: Field, entry: &Entry) -> Result<(), String> {
    let value = entry.figure.value();
    let label = field.label();
    let may_be_negative = matches!(field, Field::Gradient | Field::Temperature);
    if value < 0.0 && !may_be_negative {
        return Err(format!(
            "The {label} cannot be negative. Take away the minus sign."
        ));
    }
    if entry.si().abs() > LARGEST {
        return Err(format!("The {label} cannot be as large as that."));
    }
    if field.quantity() == Quantity::Count {
        if !entry.figure.is_whole() {
            return Err(format!("The {label} is a count: type a whole number."));
        }
        if value > LARGEST_COUNT {
            return Err(format!("The {label} cannot be as large as that."));
        }
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
        return Err(format!("The {label} cannot be 0."));
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
                reason: format!(
                    "The {} must be larger than the {}.",
                    last.label(),
                    first.label()
                ),
            });
        }
    }
}
