//! Sheets that a simulated pupil works out, as the analysis takes them.

use analysis::assess::{Assessment, assess};
use analysis::field::Field;
use analysis::sheet::{Cell, Sheet, TypedRow, TypedSheet};
use analysis::slip::{Kind, Slip};
use simulator::sheet::{self, string_sheet, tank_sheet};

pub(crate) use simulator::sheet::Reading;
pub(crate) use simulator::working::Habits;

/// A simulated sheet as a revision stores it, which is what the analysis
/// takes.
pub(crate) fn typed(sheet: &sheet::Sheet) -> TypedSheet {
    let stored = serde_json::to_value(sheet).expect("boxes of text");
    serde_json::from_value(stored).expect("boxes of the readings format")
}

pub(crate) fn cell(text: &str, unit: &str) -> Cell {
    Cell {
        text: text.to_owned(),
        unit: unit.to_owned(),
    }
}

/// A careful pupil who leaves these boxes blank.
pub(crate) fn without(blank: &[Field]) -> Habits {
    Habits {
        blank: blank.iter().map(|field| field.name()).collect(),
        ..Habits::careful(3)
    }
}

/// A ripple-tank sheet, worked out. `scale` is image and true length in cm.
pub(crate) fn ripple(readings: &[Reading], scale: (f64, f64), habits: &Habits) -> TypedSheet {
    let mut sheet = tank_sheet(readings, scale);
    habits.work_out(&mut sheet);
    typed(&sheet)
}

/// A string sheet, worked out; spans in m.
pub(crate) fn string(readings: &[Reading], habits: &Habits) -> TypedSheet {
    let mut sheet = string_sheet(readings);
    habits.work_out(&mut sheet);
    typed(&sheet)
}

pub(crate) fn judged(sheet: &TypedSheet) -> Assessment {
    assess(&Sheet::check(sheet).expect("a sheet that can be read"))
}

/// The same sheet without the boxes that the door turned away, so that the
/// judge gets to see the rest.
pub(crate) fn without_problems(mut typed: TypedSheet) -> Sheet {
    loop {
        match Sheet::check(&typed) {
            Ok(sheet) => return sheet,
            Err(problems) => {
                for problem in problems {
                    match problem.row {
                        None => typed.whole.remove(&problem.field),
                        Some(row) => typed.rows[row].cells.remove(&problem.field),
                    };
                }
            }
        }
    }
}

/// The slips of a sheet (no remarks), with step and row index.
pub(crate) fn slips(sheet: &TypedSheet) -> Vec<(Field, Slip, Option<usize>)> {
    judged(sheet)
        .flags
        .iter()
        .filter(|flag| flag.slip.kind() == Kind::Slip)
        .map(|flag| (flag.step, flag.slip, flag.row))
        .collect()
}

/// Five readings of a clean tank: about 25 cm/s, enlarged 1.75 times.
pub(crate) fn tank() -> Vec<Reading> {
    [
        (1.0, 22.2, 10),
        (1.5, 13.7, 9),
        (2.0, 11.9, 10),
        (2.5, 8.93, 9),
        (3.0, 8.60, 10),
    ]
    .map(|(dial, span, count)| Reading {
        dial,
        times: 10.0,
        count,
        first: 0,
        span: (span * 17.5_f64).round() / 10.0,
    })
    .into()
}

/// Five harmonics of a string 1.20 m long at about 48 m/s.
pub(crate) fn cord() -> Vec<Reading> {
    [(2.0, 1), (4.0, 2), (6.01, 3), (8.02, 4), (9.98, 5)]
        .map(|(dial, count)| Reading {
            dial,
            times: 10.0,
            count,
            first: 0,
            span: 1.203,
        })
        .into()
}

/// A figure of a row, as a number.
pub(crate) fn number(row: &TypedRow, field: Field) -> f64 {
    row.cells[&field].text.parse().expect("a number")
}
