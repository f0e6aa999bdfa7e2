//! Every slip of the methods on a sheet of its own.

use analysis::assess::Standing;
use analysis::field::Field;
use analysis::slip::Slip;
use analysis::unit::Unit;
use analysis::working::Verdict;

use super::pupil::{Habits, Reading, cell, cord, judged, ripple, slips, string, tank};

const SCALE: (f64, f64) = (17.5, 10.0);

fn water(habits: &Habits) -> Vec<(Field, Slip, Option<usize>)> {
    slips(&ripple(&tank(), SCALE, habits))
}

fn cord_slips(habits: &Habits) -> Vec<(Field, Slip, Option<usize>)> {
    slips(&string(&cord(), habits))
}

#[test]
fn careful_sheets_have_none() {
    for figures in 2..=5 {
        assert_eq!(
            water(&Habits::careful(figures)),
            [],
            "water, {figures} figures"
        );
        assert_eq!(
            cord_slips(&Habits::careful(figures)),
            [],
            "string, {figures} figures"
        );
    }
}

#[test]
fn a_turn_on_every_row_is_one_flag() {
    for (slip, step) in [
        (Slip::SpanNotDivided, Field::Wavelength),
        (Slip::ScaleLeftOut, Field::Wavelength),
        (Slip::ScaleMultiplied, Field::Wavelength),
        (Slip::ScaleUpsideDown, Field::Magnification),
        (Slip::CrestToTrough, Field::Wavelength),
        (Slip::DialMultiplierLeftOut, Field::Frequency),
        (Slip::PeriodAsFrequency, Field::Frequency),
        (Slip::ReciprocalLeftOut, Field::Reciprocal),
        (Slip::SpeedDivided, Field::Speed),
        (Slip::SpeedInverted, Field::Speed),
        (Slip::UnitPowerOfTen, Field::Speed),
        (Slip::MeanNotDivided, Field::MeanSpeed),
        (Slip::MeanWrongCount, Field::MeanSpeed),
        (Slip::GradientUpsideDown, Field::Gradient),
    ] {
        let found = water(&Habits::careful(3).with(slip, None));
        assert_eq!(found, [(step, slip, None)], "{}", slip.code());
    }
    for (slip, step) in [
        (Slip::LoopTakenAsWavelength, Field::Wavelength),
        (Slip::NodesCountedAsLoops, Field::Wavelength),
    ] {
        let found = cord_slips(&Habits::careful(3).with(slip, None));
        assert_eq!(found, [(step, slip, None)], "{}", slip.code());
    }
}

#[test]
fn a_turn_on_one_row_names_the_row() {
    for slip in [
        Slip::ScaleLeftOut,
        Slip::CrestToTrough,
        Slip::SpanNotDivided,
    ] {
        let found = water(&Habits::careful(3).with(slip, Some(2)));
        assert_eq!(
            found,
            [(Field::Wavelength, slip, Some(2))],
            "{}",
            slip.code()
        );
    }
}

/// Leaving a multiplier of one out changes nothing, so the rows that have one
/// cannot make "every row" of a turn taken on another.
#[test]
fn a_turn_that_changes_nothing_on_the_other_rows_is_named_on_its_own() {
    let mut readings = cord();
    for reading in &mut readings[..4] {
        reading.dial *= reading.times;
        reading.times = 1.0;
    }
    let habits = Habits::careful(3).with(Slip::DialMultiplierLeftOut, None);
    assert_eq!(
        slips(&string(&readings, &habits)),
        [(Field::Frequency, Slip::DialMultiplierLeftOut, Some(4))],
        "the one row with a multiplier"
    );

    let mut sheet = ripple(
        &tank(),
        SCALE,
        &Habits::careful(3).leaving_blank(&Field::ALL),
    );
    for (row, (first, given)) in sheet.rows.iter_mut().zip([("0", "5.0"), ("1", "5.1")]) {
        row.cells.remove(&Field::Dial);
        row.cells.remove(&Field::DialTimes);
        let last = if first == "0" { "50" } else { "51" };
        row.cells.insert(Field::PassesFirst, cell(first, ""));
        row.cells.insert(Field::PassesLast, cell(last, ""));
        row.cells.insert(Field::Seconds, cell("10.0", ""));
        row.cells.insert(Field::Frequency, cell(given, ""));
    }
    assert_eq!(
        slips(&sheet),
        [(Field::Frequency, Slip::CountedFromOne, Some(1))],
        "the one row that was counted from one"
    );
}

/// Where nothing of the row's working was written down, a turn that some rows
/// cannot take leaves those rows as they are: it does not drop them.
#[test]
fn a_hidden_turn_on_some_rows_shows_in_the_mean_over_all_of_them() {
    let mut readings = cord();
    for reading in &mut readings[..2] {
        reading.dial *= reading.times;
        reading.times = 1.0;
    }
    let blank = [
        Field::Frequency,
        Field::Wavelength,
        Field::Reciprocal,
        Field::Speed,
    ];
    for as_typed in [Some("1"), None] {
        let mut sheet = string(&readings, &Habits::careful(4).leaving_blank(&blank));
        for row in &mut sheet.rows[..2] {
            row.cells.remove(&Field::DialTimes);
            if let Some(text) = as_typed {
                row.cells.insert(Field::DialTimes, cell(text, ""));
            }
        }
        let speeds = readings
            .iter()
            .map(|r| 2.0 * r.dial * r.span / f64::from(r.count));
        let mean = speeds.sum::<f64>() / 5.0;
        sheet
            .whole
            .insert(Field::MeanSpeed, cell(&format!("{mean:.2}"), "m/s"));
        assert_eq!(
            slips(&sheet),
            [(Field::MeanSpeed, Slip::DialMultiplierLeftOut, None)],
            "{as_typed:?}: {mean}"
        );
    }
}

#[test]
fn two_turns_in_a_step_are_both_named() {
    let mut readings = tank();
    for reading in &mut readings {
        reading.first = 1;
    }
    let habits = Habits::careful(3)
        .with(Slip::CountedFromOne, None)
        .with(Slip::ScaleLeftOut, None);
    assert_eq!(
        slips(&ripple(&readings, SCALE, &habits)),
        [
            (Field::Wavelength, Slip::CountedFromOne, None),
            (Field::Wavelength, Slip::ScaleLeftOut, None)
        ],
        "both"
    );
}

#[test]
fn a_turn_on_every_row_with_another_on_one_is_two_flags() {
    let habits = Habits::careful(4)
        .with(Slip::ScaleLeftOut, None)
        .with(Slip::CrestToTrough, Some(3));
    assert_eq!(
        water(&habits),
        [
            (Field::Wavelength, Slip::ScaleLeftOut, None),
            (Field::Wavelength, Slip::CrestToTrough, Some(3))
        ],
        "the common turn once, the other on its row"
    );
}

#[test]
fn counting_from_one_is_shown_where_both_labels_are_recorded() {
    let mut readings = tank();
    for reading in &mut readings {
        reading.first = 1;
    }
    let sheet = ripple(
        &readings,
        SCALE,
        &Habits::careful(3).with(Slip::CountedFromOne, None),
    );
    assert_eq!(
        slips(&sheet),
        [(Field::Wavelength, Slip::CountedFromOne, None)],
        "shown"
    );
}

#[test]
fn a_turn_in_a_figure_left_blank_is_named_where_it_first_shows_and_only_there() {
    let blank = [Field::Frequency, Field::Wavelength];
    let habits = Habits::careful(3)
        .with(Slip::DialMultiplierLeftOut, None)
        .leaving_blank(&blank);
    let sheet = string(&cord(), &habits);
    assert_eq!(
        slips(&sheet),
        [(Field::Speed, Slip::DialMultiplierLeftOut, None)],
        "once"
    );
    let habits = Habits::careful(3)
        .with(Slip::ScaleLeftOut, None)
        .leaving_blank(&blank);
    assert_eq!(
        water(&habits),
        [(Field::Reciprocal, Slip::ScaleLeftOut, None)],
        "once"
    );
}

#[test]
fn enlargement_upside_down_shows_in_the_wavelength_where_no_magnification_is_given() {
    let habits = Habits::careful(3)
        .with(Slip::ScaleUpsideDown, None)
        .leaving_blank(&[Field::Magnification]);
    let sheet = ripple(&tank(), SCALE, &habits);
    let flags = judged(&sheet).flags;
    let flag = &flags[0];
    // Multiplying by M and dividing by 1/M cannot be told apart.
    let both = [Some(flag.slip), flag.rival];
    assert!(both.contains(&Some(Slip::ScaleUpsideDown)), "{flag:?}");
    assert!(both.contains(&Some(Slip::ScaleMultiplied)), "{flag:?}");
    assert_eq!(
        (flag.step, flag.row, flags.len()),
        (Field::Wavelength, None, 1),
        "one flag"
    );
}

#[test]
fn counted_frequencies_have_slips_of_their_own() {
    for (given, slip) in [
        ("50", Slip::CountNotDivided),
        ("0.2", Slip::PeriodAsFrequency),
        ("5.1", Slip::CountedFromOne),
    ] {
        let mut sheet = ripple(
            &tank(),
            SCALE,
            &Habits::careful(3).leaving_blank(&Field::ALL),
        );
        let cells = &mut sheet.rows[0].cells;
        cells.remove(&Field::Dial);
        cells.remove(&Field::DialTimes);
        cells.insert(Field::PassesFirst, cell("1", ""));
        cells.insert(Field::PassesLast, cell("51", ""));
        cells.insert(Field::Seconds, cell("10.0", ""));
        cells.insert(Field::Frequency, cell(given, ""));
        assert_eq!(
            slips(&sheet),
            [(Field::Frequency, slip, Some(0))],
            "{given}"
        );
    }
}

#[test]
fn a_marked_anomaly_in_the_mean_is_named() {
    let mut sheet = string(&cord(), &Habits::careful(3));
    sheet.rows[3]
        .cells
        .insert(Field::Speed, cell("60.2", "m/s"));
    sheet.rows[3].left_out = true;
    let speeds: Vec<f64> = sheet
        .rows
        .iter()
        .map(|r| r.cells[&Field::Speed].text.parse().expect("number"))
        .collect();
    let mean = speeds.iter().sum::<f64>() / 5.0;
    sheet
        .whole
        .insert(Field::MeanSpeed, cell(&format!("{mean:.2}"), "m/s"));
    assert!(
        slips(&sheet).contains(&(Field::MeanSpeed, Slip::AnomalyAveragedIn, None)),
        "{:?}",
        slips(&sheet)
    );
}

#[test]
fn a_row_left_out_of_the_mean_unsaid_is_a_remark() {
    let mut sheet = string(&cord(), &Habits::careful(4));
    sheet.rows[4]
        .cells
        .insert(Field::Speed, cell("55.00", "m/s"));
    let speeds: Vec<f64> = sheet.rows[..4]
        .iter()
        .map(|r| r.cells[&Field::Speed].text.parse().expect("number"))
        .collect();
    let mean = speeds.iter().sum::<f64>() / 4.0;
    sheet
        .whole
        .insert(Field::MeanSpeed, cell(&format!("{mean:.2}"), "m/s"));
    let remark = judged(&sheet)
        .flags
        .iter()
        .find(|flag| flag.slip == Slip::RowLeftOutUnsaid)
        .map(|flag| flag.row);
    assert_eq!(remark, Some(Some(4)), "the row is named");
    assert!(
        !slips(&sheet).iter().any(|s| s.0 == Field::MeanSpeed),
        "no slip"
    );
}

#[test]
fn a_gradient_from_one_point_is_named_where_the_line_has_an_intercept() {
    // From 10 to 50 Hz, 5 mm deep: the first point of this curve lies well
    // below every line that could be drawn through the others.
    let readings = [
        (1.0, 22.2),
        (2.0, 11.9),
        (3.0, 8.60),
        (4.0, 6.93),
        (5.0, 5.90),
    ]
    .map(|(dial, ten_waves)| Reading {
        dial,
        times: 10.0,
        count: 10,
        first: 0,
        span: ten_waves * 1.75,
    });
    let mut sheet = ripple(&readings, SCALE, &Habits::careful(3));
    sheet.whole.insert(Field::Gradient, cell("0.222", "m/s"));
    assert_eq!(
        slips(&sheet),
        [(Field::Gradient, Slip::GradientFromOnePoint, None)],
        "one point"
    );
}

/// The group drew its line through all its points, the odd one too.
#[test]
fn a_gradient_upside_down_is_named_beside_an_anomalous_row() {
    let odd = |row: u32| -> f64 { if row == 4 { 1.35 } else { 1.0 } };
    let readings: Vec<_> = (1..=5_u32)
        .map(|row| Reading {
            dial: f64::from(row),
            times: 10.0,
            count: row,
            first: 0,
            span: (1.2 * odd(row) * 1000.0).round() / 1000.0,
        })
        .collect();
    let sheet = string(
        &readings,
        &Habits::careful(3).with(Slip::GradientUpsideDown, None),
    );
    assert!(
        judged(&sheet).rows[3].standing == Standing::Anomalous,
        "the odd row is one"
    );
    assert_eq!(
        slips(&sheet),
        [(Field::Gradient, Slip::GradientUpsideDown, None)],
        "the line through every point, upside down"
    );
}

#[test]
fn what_nothing_explains_is_said_not_to_follow() {
    let mut sheet = string(&cord(), &Habits::careful(4));
    sheet.rows[1]
        .cells
        .insert(Field::Speed, cell("31.37", "m/s"));
    assert!(
        slips(&sheet).contains(&(Field::Speed, Slip::DoesNotFollow, Some(1))),
        "{:?}",
        slips(&sheet)
    );
}

#[test]
fn one_slip_is_one_slip() {
    // The wavelength on the screen, carried right through to the gradient.
    let habits = Habits::careful(3).with(Slip::ScaleLeftOut, None);
    assert_eq!(
        water(&habits),
        [(Field::Wavelength, Slip::ScaleLeftOut, None)],
        "once"
    );
}

#[test]
fn a_blank_unit_is_judged_in_the_unit_that_makes_it_right() {
    let mut sheet = ripple(&tank(), SCALE, &Habits::careful(3));
    for row in &mut sheet.rows {
        let wavelength = row.cells.get_mut(&Field::Wavelength).expect("given");
        let mm = wavelength.text.parse::<f64>().expect("number") * 10.0;
        *wavelength = cell(&format!("{mm:.1}"), "");
    }
    assert_eq!(slips(&sheet), [], "mm are read as mm");
    let remarks: Vec<_> = judged(&sheet)
        .flags
        .iter()
        .map(|f| (f.step, f.slip, f.row))
        .collect();
    assert_eq!(
        remarks,
        [(Field::Wavelength, Slip::UnitMissing, None)],
        "one remark"
    );
}

#[test]
fn figures_are_remarked_on_once_a_column() {
    let sheet = string(&cord(), &Habits::careful(7));
    let remarks: Vec<_> = judged(&sheet)
        .flags
        .iter()
        .filter(|f| f.slip == Slip::TooManyFigures && f.step == Field::Speed)
        .map(|f| f.row)
        .collect();
    assert_eq!(remarks, [None], "every row of the column");
}

#[test]
fn the_arithmetic_is_written_out() {
    let habits = Habits::careful(3).with(Slip::ScaleLeftOut, None);
    let mut readings = tank();
    readings[0].span = 22.4;
    readings[0].count = 8;
    let flags = judged(&ripple(&readings, SCALE, &habits)).flags;
    assert_eq!(
        (
            flags[0].given.as_str(),
            flags[0].expected.as_str(),
            flags[0].arithmetic.parts()
        ),
        (
            "2.80",
            "1.60",
            vec!["22.4 cm ÷ 8 = 2.80 cm", "2.80 ÷ 1.75 = 1.60 cm"]
        ),
        "as a teacher would write it"
    );
}

#[test]
fn lines_counted_for_gaps_are_named_where_the_first_was_called_nought() {
    let mut sheet = ripple(&tank(), SCALE, &Habits::careful(4));
    for row in &mut sheet.rows {
        let last: f64 = row.cells[&Field::LastCrest].text.parse().expect("a count");
        let right: f64 = row.cells[&Field::Wavelength].text.parse().expect("given");
        let lines = cell(&format!("{:.3}", right * last / (last + 1.0)), "cm");
        row.cells.insert(Field::Wavelength, lines);
        row.cells.remove(&Field::Reciprocal);
        row.cells.remove(&Field::Speed);
    }
    sheet.whole.remove(&Field::MeanSpeed);
    sheet.whole.remove(&Field::Gradient);
    assert_eq!(
        slips(&sheet),
        [(Field::Wavelength, Slip::CountedFromOne, None)],
        "9 lines for 8 gaps"
    );
}

/// A mean or a gradient without a unit is answered in the unit that makes it
/// right, not in the heading's.
#[test]
fn a_bare_result_is_answered_in_the_unit_that_makes_it_right() {
    let mut sheet = string(&cord(), &Habits::careful(3));
    for field in [Field::MeanSpeed, Field::Gradient] {
        let result = sheet.whole.get_mut(&field).expect("given");
        let cm_per_s = result.text.parse::<f64>().expect("a number") * 100.0;
        *result = cell(&format!("{cm_per_s:.0}"), "");
    }
    let comparisons = judged(&sheet).comparisons;
    for field in [Field::MeanSpeed, Field::Gradient] {
        let found = comparisons.iter().find(|c| c.field == field);
        let found = found.expect("compared");
        assert_eq!(found.verdict, Verdict::Right, "{found:?}");
        assert_eq!(found.read_in, Some(Unit::CentimetrePerSecond), "{found:?}");
        let follows = found.follows.as_deref().expect("worked out");
        assert!(follows.ends_with(" cm/s"), "{found:?}");
    }
}
