//! Worked examples of error carried forward: common practice in marking, with
//! the figures of a published-style scheme for this practical (55 Hz and
//! 80 cm, three marks for 44 m/s, two of them for 4400).

use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::{Check, Why};
use analysis::sheet::{TypedRow, TypedSheet};
use analysis::slip::Slip;
use analysis::sum::Sum;

use super::{marks, point, suggested};
use crate::pupil::cell;

/// One row: 55 Hz, two loops in 80 cm, so a wavelength of 80 cm.
fn row(figures: &[(Field, &str, &str)]) -> TypedSheet {
    let readings = [
        (Field::Dial, "55", ""),
        (Field::Length, "80", "cm"),
        (Field::LengthLoops, "2", ""),
        (Field::Loops, "2", ""),
    ];
    let cells = readings.iter().chain(figures);
    let mut sheet = super::blank(Method::StringLoops);
    sheet.rows.push(TypedRow {
        label: "1".to_owned(),
        cells: cells
            .map(|(field, text, unit)| (*field, cell(text, unit)))
            .collect(),
        left_out: false,
    });
    sheet
}

#[test]
fn conversion_left_out_costs_its_own_mark_and_the_substitution_stands() {
    let points = [point(Check::Speed, 2), point(Check::Unit, 1)];
    let right = row(&[
        (Field::Wavelength, "0.80", "m"),
        (Field::Speed, "44", "m/s"),
    ]);
    assert_eq!(marks(&points, &right), [2, 1], "44 m/s");
    let unconverted = row(&[
        (Field::Wavelength, "80", "cm"),
        (Field::Speed, "4400", "m/s"),
    ]);
    let found = suggested(&points, &unconverted);
    assert_eq!(
        [found[0].marks, found[1].marks],
        [2, 0],
        "4400 follows from 55 and 80: {found:?}"
    );
    let Why::Slips { sum, .. } = &found[1].why else {
        panic!("{:?}", found[1].why);
    };
    assert!(sum.parts()[0].contains("44"), "{sum:?}");
}

#[test]
fn scheme_without_a_point_for_units_takes_the_one_mark_from_the_speed() {
    let points = [point(Check::Speed, 3)];
    let unconverted = row(&[
        (Field::Wavelength, "80", "cm"),
        (Field::Speed, "4400", "m/s"),
    ]);
    assert_eq!(marks(&points, &unconverted), [2], "two of three marks");
}

#[test]
fn right_answer_without_working_earns_the_steps_before_it() {
    let points = [
        point(Check::Wavelength, 2),
        point(Check::Frequency, 1),
        point(Check::Speed, 2),
    ];
    let bare = row(&[(Field::Speed, "44", "m/s")]);
    assert_eq!(marks(&points, &bare), [2, 1, 2], "nothing but 44 m/s");
    let nothing = row(&[]);
    let found = suggested(&points, &nothing);
    assert!(
        found.iter().all(|s| s.marks == 0 && !s.is_shown),
        "nothing is worked out, and nothing is shown: {found:?}"
    );
}

#[test]
fn loop_taken_for_a_wave_costs_one_mark_and_the_speed_follows() {
    let points = [
        point(Check::Wavelength, 2),
        point(Check::Speed, 2),
        point(Check::MeanWithoutAnomaly, 1),
    ];
    let mut half = row(&[
        (Field::Wavelength, "0.40", "m"),
        (Field::Speed, "22", "m/s"),
    ]);
    half.whole.insert(Field::MeanSpeed, cell("22", "m/s"));
    let found = suggested(&points, &half);
    let marks: Vec<_> = found.iter().map(|s| s.marks).collect();
    assert_eq!(marks, [1, 2, 1], "{found:?}");
    assert!(found[0].is_shown, "their own figures show it");
    let Why::Slips { slip, .. } = &found[0].why else {
        panic!("{:?}", found[0].why);
    };
    assert_eq!(*slip, Slip::LoopTakenAsWavelength);
}

#[test]
fn whole_range_given_for_the_uncertainty_is_named() {
    let points = [point(Check::Uncertainty, 2)];
    let mut sheet = row(&[(Field::Speed, "44", "m/s")]);
    let mut second = sheet.rows[0].clone();
    second.label = "2".to_owned();
    second.cells.insert(Field::Dial, cell("60", ""));
    second.cells.insert(Field::Speed, cell("48", "m/s"));
    sheet.rows.push(second);
    for (text, earned) in [("2", 2), ("2.0", 2), ("4", 1), ("0.5", 1)] {
        sheet.whole.insert(Field::Uncertainty, cell(text, "m/s"));
        assert_eq!(marks(&points, &sheet), [earned], "± {text} m/s");
    }
    sheet.whole.insert(Field::Uncertainty, cell("4.0", "m/s"));
    let why = &suggested(&points, &sheet)[0].why;
    let is_whole = matches!(why, Why::Uncertainty(Sum::WholeRange(_), _));
    assert!(is_whole, "{why:?}");
}

#[test]
fn unit_left_out_costs_one_mark_however_often() {
    let points = [point(Check::Unit, 2), point(Check::Speed, 1)];
    let mut sheet = row(&[(Field::Wavelength, "0.80", "m"), (Field::Speed, "44", "")]);
    sheet.whole.insert(Field::MeanSpeed, cell("44", ""));
    assert_eq!(marks(&points, &sheet), [1, 1], "no unit anywhere");
}
