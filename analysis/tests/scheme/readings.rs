//! Checks of the readings: how many frequencies, how many waves, how fine.

use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::{Check, Judged, suggest};
use analysis::sheet::Sheet;

use super::{marks, point, suggested, with_repeat};
use crate::pupil::{Habits, cell, cord, ripple, string, tank};

const SCALE: (f64, f64) = (17.5, 10.0);

#[test]
fn each_frequency_below_five_costs_a_mark() {
    let points = [point(Check::EnoughFrequencies, 3)];
    for (rows, earned) in [(5, 3), (4, 2), (3, 1), (2, 0), (1, 0)] {
        let sheet = ripple(&tank()[..rows], SCALE, &Habits::careful(3));
        assert_eq!(marks(&points, &sheet), [earned], "{rows} frequencies");
    }
    let four_and_a_repeat = with_repeat(ripple(&tank()[..4], SCALE, &Habits::careful(3)));
    assert_eq!(
        marks(&points, &four_and_a_repeat),
        [2],
        "a repeat is no other frequency"
    );
}

#[test]
fn waves_are_many_from_eight_on() {
    let points = [point(Check::ManyWaves, 1)];
    let with_waves = |count: u32| {
        let mut readings = tank();
        for reading in &mut readings {
            reading.count = count;
        }
        ripple(&readings, SCALE, &Habits::careful(3))
    };
    for (count, earned) in [(10, 1), (8, 1), (7, 0), (1, 0)] {
        assert_eq!(
            marks(&points, &with_waves(count)),
            [earned],
            "{count} waves"
        );
    }
    let called_one = {
        let mut readings = tank();
        for reading in &mut readings {
            (reading.first, reading.count) = (1, 7);
        }
        ripple(&readings, SCALE, &Habits::careful(3))
    };
    assert_eq!(
        marks(&points, &called_one),
        [0],
        "one to eight are seven waves"
    );
}

#[test]
fn string_is_measured_over_all_its_loops() {
    let points = [point(Check::ManyWaves, 1)];
    let with_loops = |seen: u32| {
        let mut sheet = string(&cord(), &Habits::careful(3));
        for row in &mut sheet.rows {
            let covered: u32 = row.cells[&Field::LengthLoops]
                .text
                .parse()
                .expect("a count");
            let seen = (covered + seen).to_string();
            row.cells.insert(Field::Loops, cell(&seen, ""));
        }
        sheet
    };
    assert_eq!(marks(&points, &with_loops(0)), [1], "end to end");
    assert_eq!(marks(&points, &with_loops(1)), [0], "one loop left out");
}

#[test]
fn lengths_are_read_to_the_millimetre() {
    let points = [point(Check::Resolution, 2)];
    let mut sheet = string(&cord(), &Habits::careful(3));
    assert_eq!(marks(&points, &sheet), [2], "1.203 m");
    for (text, unit, earned) in [
        ("120", "cm", 0),
        ("120.3", "cm", 2),
        ("1203", "mm", 2),
        ("1.2", "m", 0),
    ] {
        for row in &mut sheet.rows {
            row.cells.insert(Field::Length, cell(text, unit));
        }
        assert_eq!(marks(&points, &sheet), [earned], "{text} {unit}");
    }
}

#[test]
fn waves_measured_in_the_water_need_no_enlargement() {
    let points = [
        point(Check::EnlargementFound, 1),
        point(Check::EnlargementApplied, 1),
    ];
    let mut sheet = ripple(&tank(), (1.0, 1.0), &Habits::careful(3));
    for field in [Field::ScaleImage, Field::ScaleTrue, Field::Magnification] {
        sheet.whole.remove(&field);
    }
    let found = suggested(&points, &sheet);
    assert_eq!([found[0].marks, found[1].marks], [1, 1], "{found:?}");
    assert!(
        found.iter().all(|s| !s.is_shown),
        "nothing is shown: the marker decides without a reason"
    );
    sheet.whole.insert(Field::ScaleImage, cell("17.5", "cm"));
    assert_eq!(marks(&points, &sheet), [0, 0], "one length of the two");
}

#[test]
fn check_of_something_that_the_method_has_not_suggests_nothing() {
    let enlargement = point(Check::EnlargementApplied, 1);
    let sheet = Sheet::check(&string(&cord(), &Habits::careful(3))).expect("a sheet");
    let found = suggest(&[&enlargement], &sheet, &analysis::assess::assess(&sheet));
    assert_eq!(found, [None], "a string is not enlarged");
}

#[test]
fn every_check_answers_on_every_sheet_of_its_method() {
    for method in Method::ALL {
        let typed = match method {
            Method::RippleTank => ripple(&tank(), SCALE, &Habits::careful(3)),
            Method::StringLoops => string(&cord(), &Habits::careful(3)),
        };
        let points = Check::ALL.map(|check| point(check, 2));
        let asked: Vec<_> = points.iter().collect();
        let sheet = Sheet::check(&typed).expect("a sheet");
        let found = suggest(&asked, &sheet, &analysis::assess::assess(&sheet));
        for (point, suggestion) in points.iter().zip(found) {
            let Judged::ByCheck(check) = point.judged else {
                continue;
            };
            assert_eq!(suggestion.is_some(), check.is_for(method), "{check:?}");
        }
    }
}
