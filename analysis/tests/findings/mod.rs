//! What the readings of a sheet suggest: each cause told, in words, with what
//! was read and what would fit.

mod any_sheet;
mod class;
mod rough;
mod string;
mod unexplained;
mod water;

use analysis::field::Field;
use analysis::reading::{Cause, Finding, Inference, Placed, infer};
use analysis::sheet::{Sheet, TypedSheet};
use analysis::slip::Kind;
use simulator::dice::Dice;
use simulator::group::{Frequency, Group, Hand};
use simulator::kit::{Cord, Tank};
use simulator::sheet;

use crate::pupil::{cell, typed};

/// Frequencies of a tank's six rows, Hz.
const FREQUENCIES: [f64; 6] = [10.0, 15.0, 20.0, 25.0, 30.0, 40.0];

/// Waves in each span. Groups take more of the short ones.
const WAVES: [u32; 6] = [6, 8, 9, 10, 12, 12];

/// Errors of reading a span, mm.
const ERRORS: [f64; 6] = [0.0, 1.0, -1.0, 1.0, 0.0, -1.0];

/// A tank's used water, 5 mm deep.
fn used_water() -> Tank {
    Tank {
        tension: 0.060,
        ..Tank::SOUND
    }
}

/// A careful group's sheet from a tank, the depth on its card written down.
fn tank(tank: Tank) -> TypedSheet {
    let mut dice = Dice::new(0);
    let mut lines = Vec::new();
    let mut group = Group {
        frequency: Frequency::Dial(10, 2),
        ..Group::new(Hand::STEADY, "cm")
    };
    for ((f, waves), error) in FREQUENCIES.into_iter().zip(WAVES).zip(ERRORS) {
        (group.waves, group.zero) = ((waves, waves), error);
        lines.extend(group.ripples(&tank, &[f / 10.0], &mut dice));
    }
    let mut sheet = group.tank_sheet(&tank, &lines, &mut dice);
    sheet.whole.insert("depth_mm", sheet::cell("5.0", ""));
    typed(&sheet)
}

/// A careful group's sheet from a string on which waves run at 30 m/s.
fn string(masses: bool) -> TypedSheet {
    let cord = Cord {
        mass: 1.09,
        weighed: 0.5,
        ..Cord::SOUND
    };
    let group = Group::new(Hand::STEADY, "m");
    let rows = (1..).zip([0.998, 1.001, 0.997, 1.002, 1.0]);
    let lines = rows.flat_map(|(loops, dial)| {
        let found = Cord { dial, ..cord };
        group.loops(&found, &[loops], &mut Dice::new(0))
    });
    let mut sheet = group.string_sheet(&lines.collect::<Vec<_>>());
    if masses {
        Group::record_masses(&cord, &mut sheet);
    }
    typed(&sheet)
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

/// A figure so many times as large, to so many decimals.
fn times(factor: f64, decimals: usize) -> impl Fn(&str) -> String {
    move |text| {
        let figure = text.parse::<f64>().expect("a figure");
        format!("{:.decimals$}", figure * factor)
    }
}

fn checked(typed: &TypedSheet) -> Sheet {
    Sheet::check(typed).expect("a sheet that can be read")
}

/// What is found of a group's own slips.
fn slips(inference: &Inference) -> impl Iterator<Item = &Finding> {
    let found = inference.findings.iter();
    found.filter(|found| found.cause.kind() == Kind::Slip)
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
