//! One slip costs one mark, wherever in the chain it is and however many rows
//! it is in, whatever follows from it.

use analysis::assess::assess;
use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::{Check, Judged, Point, suggest};
use analysis::sheet::{Sheet, TypedSheet};
use analysis::slip::Slip;

use super::{blank, by_check, full, marks, point, suggested, total, with_repeat};
use crate::pupil::{Habits, cord, ripple, slips, string, tank, without};

const SCALE: (f64, f64) = (17.5, 10.0);

/// A tank's or a string's sheet with everything that the scheme asks.
fn sheet(method: Method, habits: &Habits) -> TypedSheet {
    let habits = Habits {
        uncertainty: Some(2),
        ..habits.clone()
    };
    match method {
        Method::RippleTank => {
            let mut readings = tank();
            readings.push(readings[0]);
            ripple(&readings, SCALE, &habits)
        }
        Method::StringLoops => {
            let mut readings = cord();
            readings.push(readings[0]);
            string(&readings, &habits)
        }
    }
}

fn possible(method: Method) -> Vec<Slip> {
    let shared = [
        Slip::DialMultiplierLeftOut,
        Slip::PeriodAsFrequency,
        Slip::SpeedDivided,
        Slip::SpeedInverted,
        Slip::ReciprocalLeftOut,
        Slip::UnitPowerOfTen,
        Slip::MeanNotDivided,
        Slip::MeanWrongCount,
        Slip::GradientUpsideDown,
    ];
    let own: &[Slip] = match method {
        Method::RippleTank => &[
            Slip::SpanNotDivided,
            Slip::ScaleLeftOut,
            Slip::ScaleMultiplied,
            Slip::ScaleUpsideDown,
            Slip::CrestToTrough,
            Slip::MeansMultiplied,
        ],
        Method::StringLoops => &[
            Slip::LoopTakenAsWavelength,
            Slip::NodesCountedAsLoops,
            Slip::SpanNotDivided,
            Slip::InnerNodesCounted,
        ],
    };
    shared.iter().chain(own).copied().collect()
}

#[test]
fn careful_sheet_earns_everything() {
    for method in Method::ALL {
        let points = by_check(method);
        let sheet = sheet(method, &Habits::careful(3));
        let found = suggested(&points, &sheet);
        for (suggestion, point) in found.iter().zip(&points) {
            assert_eq!(
                suggestion.marks, point.marks,
                "{}: {:?}",
                point.title, suggestion.why
            );
        }
    }
}

#[test]
fn every_slip_on_every_row_costs_one_mark() {
    for method in Method::ALL {
        let points = by_check(method);
        for slip in possible(method) {
            let sheet = sheet(method, &Habits::careful(3).with(slip.code(), None));
            assert_eq!(
                full(&points) - total(&points, &sheet),
                1,
                "{}: {:?}",
                slip.code(),
                suggested(&points, &sheet)
            );
        }
    }
}

#[test]
fn slip_on_two_rows_costs_one_mark() {
    let points = by_check(Method::RippleTank);
    for slip in [
        Slip::ScaleLeftOut,
        Slip::SpanNotDivided,
        Slip::CrestToTrough,
        Slip::SpeedDivided,
    ] {
        let habits = Habits::careful(3)
            .with(slip.code(), Some(1))
            .with(slip.code(), Some(3));
        let sheet = sheet(Method::RippleTank, &habits);
        assert_eq!(full(&points) - total(&points, &sheet), 1, "{}", slip.code());
    }
}

#[test]
fn two_slips_cost_two_marks() {
    let points = by_check(Method::RippleTank);
    for (one, other) in [
        (Slip::ScaleUpsideDown, Slip::MeanNotDivided),
        (Slip::DialMultiplierLeftOut, Slip::CrestToTrough),
        (Slip::SpanNotDivided, Slip::GradientUpsideDown),
    ] {
        let habits = Habits::careful(3)
            .with(one.code(), None)
            .with(other.code(), None);
        let sheet = sheet(Method::RippleTank, &habits);
        assert_eq!(slips(&sheet).len(), 2, "both are named");
        assert_eq!(
            full(&points) - total(&points, &sheet),
            2,
            "{} and {}",
            one.code(),
            other.code()
        );
    }
}

#[test]
fn slip_that_the_scheme_asks_nothing_about_costs_nothing() {
    let points = [point(Check::Speed, 2), point(Check::Gradient, 1)];
    let habits = Habits::careful(3).with(Slip::ScaleLeftOut.code(), None);
    assert_eq!(
        marks(&points, &sheet(Method::RippleTank, &habits)),
        [2, 1],
        "the enlargement is not asked for"
    );
}

#[test]
fn slip_that_a_teacher_dismissed_costs_nothing() {
    let points = by_check(Method::RippleTank);
    let habits = Habits::careful(3).with(Slip::ScaleLeftOut.code(), None);
    let sheet = Sheet::check(&sheet(Method::RippleTank, &habits)).expect("a sheet");
    let mut upheld = assess(&sheet);
    upheld.flags.retain(|flag| flag.slip != Slip::ScaleLeftOut);
    let asked: Vec<&Point> = points.iter().collect();
    let found = suggest(&asked, &sheet, &upheld);
    let earned: u32 = found.iter().flatten().map(|s| s.marks).sum();
    assert_eq!(earned, full(&points), "{found:?}");
}

#[test]
fn each_slip_is_about_a_point_of_its_own() {
    let checks = [
        (Slip::ScaleLeftOut, Check::EnlargementApplied),
        (Slip::ScaleUpsideDown, Check::EnlargementFound),
        (Slip::SpanNotDivided, Check::Wavelength),
        (Slip::CrestToTrough, Check::Wavelength),
        (Slip::DialMultiplierLeftOut, Check::Frequency),
        (Slip::SpeedDivided, Check::Speed),
        (Slip::UnitPowerOfTen, Check::Unit),
        (Slip::MeanNotDivided, Check::MeanWithoutAnomaly),
        (Slip::GradientUpsideDown, Check::Gradient),
    ];
    let points = by_check(Method::RippleTank);
    for (slip, check) in checks {
        let sheet = sheet(
            Method::RippleTank,
            &Habits::careful(3).with(slip.code(), None),
        );
        let found = suggested(&points, &sheet);
        let (point, suggestion) = points
            .iter()
            .zip(&found)
            .find(|(point, suggestion)| suggestion.marks < point.marks)
            .expect("one mark less");
        assert_eq!(point.judged, Judged::ByCheck(check), "{}", slip.code());
        assert!(suggestion.is_shown, "{}", slip.code());
    }
}

#[test]
fn sheet_with_readings_alone_earns_what_readings_earn() {
    let points = by_check(Method::RippleTank);
    let working = [
        Field::Frequency,
        Field::Wavelength,
        Field::Reciprocal,
        Field::Speed,
        Field::Magnification,
        Field::MeanSpeed,
        Field::Gradient,
    ];
    let bare = ripple(&tank(), SCALE, &without(&working));
    let bare = with_repeat(bare);
    for (suggestion, point) in suggested(&points, &bare).iter().zip(&points) {
        let Judged::ByCheck(check) = point.judged else {
            continue;
        };
        let is_of_readings = matches!(
            check,
            Check::EnoughFrequencies | Check::ManyWaves | Check::Repeats
        );
        let earned = if is_of_readings { point.marks } else { 0 };
        assert_eq!(suggestion.marks, earned, "{check:?}: {:?}", suggestion.why);
    }
}

#[test]
fn blank_sheet_earns_nothing() {
    for method in Method::ALL {
        let points = by_check(method);
        assert_eq!(total(&points, &blank(method)), 0, "{method:?}");
    }
}
