//! What the readings of a sheet suggest: each cause told, in words, with what
//! was read and what would fit.

mod any_sheet;
mod class;
mod rough;
mod string;
mod water;

use std::collections::BTreeMap;

use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::{Cause, Finding, Inference, Placed, infer};
use analysis::sheet::{Cell, Cells, Sheet, TypedRow, TypedSheet};
use analysis::wave::water::Water;

fn cell(text: &str, unit: &str) -> Cell {
    Cell {
        text: text.to_owned(),
        unit: unit.to_owned(),
    }
}

/// Frequencies of a tank's six rows, Hz.
const FREQUENCIES: [f64; 6] = [10.0, 15.0, 20.0, 25.0, 30.0, 40.0];

/// Waves in each span. Groups take more of the short ones.
const WAVES: [u32; 6] = [6, 8, 9, 10, 12, 12];

/// Errors of reading a span, mm.
const ERRORS: [f64; 6] = [0.0, 1.0, -1.0, 1.0, 0.0, -1.0];

/// Image and true length of the known object, cm.
const SCALE: (&str, &str) = ("17.5", "10.0");

/// A tank's used water (N/m), 5 mm deep.
fn used_water() -> Water {
    Water {
        surface_tension: 0.060,
        ..Water::clean(20.0, 0.005)
    }
}

/// A careful group's sheet from a tank, the depth written down.
fn tank(water: Water) -> TypedSheet {
    let row = |at: usize| {
        let (f, waves) = (FREQUENCIES[at], WAVES[at]);
        let span = water.wavelength(f) * f64::from(waves) * 1.75 * 100.0 + ERRORS[at] / 10.0;
        let cells = BTreeMap::from([
            (Field::Dial, cell(&format!("{:.2}", f / 10.0), "")),
            (Field::DialTimes, cell("10", "")),
            (Field::FirstCrest, cell("0", "")),
            (Field::LastCrest, cell(&waves.to_string(), "")),
            (Field::Span, cell(&format!("{span:.1}"), "cm")),
        ]);
        TypedRow {
            label: (at + 1).to_string(),
            cells,
            left_out: false,
        }
    };
    TypedSheet {
        method: Method::RippleTank,
        whole: Cells::from([
            (Field::ScaleImage, cell(SCALE.0, "cm")),
            (Field::ScaleTrue, cell(SCALE.1, "cm")),
            (Field::Depth, cell("5.0", "")),
        ]),
        rows: (0..FREQUENCIES.len()).map(row).collect(),
    }
}

/// A careful group's sheet from a string on which waves run at 30 m/s.
fn string(masses: bool) -> TypedSheet {
    let row = |loops: u32| {
        let f = f64::from(loops) * 30.0 / 2.4;
        let dial = format!(
            "{:.1}",
            f * [1.004, 0.998, 1.001, 0.997, 1.002, 1.0][loops as usize % 6]
        );
        let cells = BTreeMap::from([
            (Field::Dial, cell(&dial, "")),
            (Field::Loops, cell(&loops.to_string(), "")),
            (Field::Length, cell("1.200", "m")),
            (Field::LengthLoops, cell(&loops.to_string(), "")),
        ]);
        TypedRow {
            label: loops.to_string(),
            cells,
            left_out: false,
        }
    };
    let mut whole = Cells::new();
    if masses {
        // 0.200 kg on 1.09 g for half a metre: 30.0 m/s.
        whole.insert(Field::HangingMass, cell("200", ""));
        whole.insert(Field::StringMass, cell("1.09", ""));
        whole.insert(Field::StringLength, cell("0.500", ""));
    }
    TypedSheet {
        method: Method::StringLoops,
        whole,
        rows: (1..=5).map(row).collect(),
    }
}

/// Changes a figure of one row, or of every row, by its value.
fn retype(
    sheet: &mut TypedSheet,
    row: Option<usize>,
    field: Field,
    change: impl Fn(&str) -> String,
) {
    for (at, typed) in sheet.rows.iter_mut().enumerate() {
        if row.is_none_or(|row| row == at)
            && let Some(cell) = typed.cells.get_mut(&field)
        {
            cell.text = change(&cell.text);
        }
    }
}

/// A figure so much larger, as a whole number.
fn more(by: i32) -> impl Fn(&str) -> String {
    move |text| (text.parse::<i32>().expect("a count") + by).to_string()
}

fn checked(typed: &TypedSheet) -> Sheet {
    Sheet::check(typed).expect("a sheet that can be read")
}

/// A sheet judged alone.
fn alone(typed: &TypedSheet) -> Inference {
    let sheet = checked(typed);
    infer(&[Placed {
        sheet: &sheet,
        kit: "",
    }])
    .remove(0)
}

/// The most probable finding, which must be this.
fn first(inference: &Inference, cause: Cause, row: Option<usize>) -> &Finding {
    let first = inference.findings.first().expect("something found");
    assert_eq!((first.cause, first.row), (cause, row), "{inference:?}");
    first
}
