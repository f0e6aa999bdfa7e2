//! Every slip of the methods on a sheet of its own.

use analysis::assess::Standing;
use analysis::field::Field;
use analysis::sheet::{TypedRow, TypedSheet};
use analysis::slip::Slip;
use analysis::unit::Unit;
use analysis::working::Verdict;

use super::pupil::{
    Habits, Reading, cell, cord, judged, number, ripple, slips, string, tank, without,
};

const SCALE: (f64, f64) = (17.5, 10.0);

type Found = Vec<(Field, Slip, Option<usize>)>;

fn water(habits: &Habits) -> Found {
    either_way(habits, &|habits| slips(&ripple(&tank(), SCALE, habits)))
}

fn cord_slips(habits: &Habits) -> Found {
    either_way(habits, &|habits| slips(&string(&cord(), habits)))
}

/// What is found, whether they write a frequency `10.0` or `10`.
fn either_way(habits: &Habits, found: &dyn Fn(&Habits) -> Found) -> Found {
    let [bare, full] = [true, false].map(|bare| {
        found(&Habits {
            bare,
            ..habits.clone()
        })
    });
    assert_eq!(bare, full, "10 for 10.0");
    full
}

/// Writes the mean of the speeds of these rows down.
fn write_mean(sheet: &mut TypedSheet, rows: std::ops::Range<usize>) {
    let count = rows.len() as f64;
    let speeds = sheet.rows[rows].iter().map(|row| number(row, Field::Speed));
    let mean = format!("{:.2}", speeds.sum::<f64>() / count);
    sheet.whole.insert(Field::MeanSpeed, cell(&mean, "m/s"));
}

/// Writes another speed in a row.
fn write_speed(sheet: &mut TypedSheet, row: usize, speed: &str) {
    let cells = &mut sheet.rows[row].cells;
    cells.insert(Field::Speed, cell(speed, "m/s"));
}

/// Counts waves instead of reading the dial: from `first` to `last` in 10.0 s.
fn count(row: &mut TypedRow, first: &str, last: &str, given: &str) {
    row.cells.remove(&Field::Dial);
    row.cells.remove(&Field::DialTimes);
    for (field, text) in [
        (Field::PassesFirst, first),
        (Field::PassesLast, last),
        (Field::Seconds, "10.0"),
        (Field::Frequency, given),
    ] {
        row.cells.insert(field, cell(text, ""));
    }
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

/// Each turn taken on every row of a tank's sheet, and where it shows.
const ON_WATER: [(Slip, Field); 15] = [
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
    (Slip::MeansMultiplied, Field::MeanSpeed),
    (Slip::GradientUpsideDown, Field::Gradient),
];

/// Carried right through to the gradient, it is one slip.
#[test]
fn a_turn_on_every_row_is_one_flag() {
    for (slip, step) in ON_WATER {
        let found = water(&Habits::careful(3).with(slip.code(), None));
        assert_eq!(found, [(step, slip, None)], "{}", slip.code());
    }
    for slip in [
        Slip::LoopTakenAsWavelength,
        Slip::NodesCountedAsLoops,
        Slip::SpanNotDivided,
        Slip::InnerNodesCounted,
    ] {
        let found = cord_slips(&Habits::careful(3).with(slip.code(), None));
        assert_eq!(found, [(Field::Wavelength, slip, None)], "{}", slip.code());
    }
}

/// Two turns of one step, a common turn beside one row's, and turns in a
/// figure left blank, which are named where they first show and only there.
#[test]
fn each_turn_is_named_once_where_it_shows() {
    type Turns<'t> = &'t [(Slip, Option<usize>)];
    let careful = Habits::careful(4);
    let blank = without(&[Field::Frequency, Field::Wavelength]);
    let left_out = (Slip::ScaleLeftOut, None);
    let counted = (Slip::CountedFromOne, None);
    let cases: [(&Habits, Turns<'_>, Field); 7] = [
        (
            &careful,
            &[(Slip::ScaleLeftOut, Some(2))],
            Field::Wavelength,
        ),
        (
            &careful,
            &[(Slip::CrestToTrough, Some(2))],
            Field::Wavelength,
        ),
        (
            &careful,
            &[(Slip::SpanNotDivided, Some(2))],
            Field::Wavelength,
        ),
        (&careful, &[counted], Field::Wavelength),
        (&careful, &[counted, left_out], Field::Wavelength),
        (
            &careful,
            &[left_out, (Slip::CrestToTrough, Some(3))],
            Field::Wavelength,
        ),
        (&blank, &[left_out], Field::Reciprocal),
    ];
    let readings = tank().into_iter().map(|reading| Reading {
        first: 1,
        ..reading
    });
    let readings: Vec<_> = readings.collect();
    for (habits, turns, step) in cases {
        let taken = |habits: Habits, (slip, row): &(Slip, _)| habits.with(slip.code(), *row);
        let habits = turns.iter().fold(habits.clone(), taken);
        let expected: Vec<_> = turns
            .iter()
            .map(|(slip, row)| (step, *slip, *row))
            .collect();
        let found = either_way(&habits, &|habits| slips(&ripple(&readings, SCALE, habits)));
        assert_eq!(found, expected);
    }
    let multiplier = Slip::DialMultiplierLeftOut;
    let habits = blank.with(multiplier.code(), None);
    assert_eq!(cord_slips(&habits), [(Field::Speed, multiplier, None)]);
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
    let habits = Habits::careful(3).with(Slip::DialMultiplierLeftOut.code(), None);
    assert_eq!(
        slips(&string(&readings, &habits)),
        [(Field::Frequency, Slip::DialMultiplierLeftOut, Some(4))],
        "the one row with a multiplier"
    );

    let mut sheet = ripple(&tank(), SCALE, &without(&Field::ALL));
    for (row, (first, given)) in sheet.rows.iter_mut().zip([("0", "5.0"), ("1", "5.1")]) {
        let last = if first == "0" { "50" } else { "51" };
        count(row, first, last, given);
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
        let mut sheet = string(
            &readings,
            &Habits {
                figures: 4,
                ..without(&blank)
            },
        );
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
fn enlargement_upside_down_shows_in_the_wavelength_where_no_magnification_is_given() {
    let habits = without(&[Field::Magnification]).with(Slip::ScaleUpsideDown.code(), None);
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
        let mut sheet = ripple(&tank(), SCALE, &without(&Field::ALL));
        count(&mut sheet.rows[0], "1", "51", given);
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
    write_speed(&mut sheet, 3, "60.2");
    sheet.rows[3].left_out = true;
    write_mean(&mut sheet, 0..5);
    assert!(
        slips(&sheet).contains(&(Field::MeanSpeed, Slip::AnomalyAveragedIn, None)),
        "{:?}",
        slips(&sheet)
    );
}

#[test]
fn a_row_left_out_of_the_mean_unsaid_is_a_remark() {
    let mut sheet = string(&cord(), &Habits::careful(4));
    write_speed(&mut sheet, 4, "55.00");
    write_mean(&mut sheet, 0..4);
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

/// Rows of `tank()`: 10 Hz and 22.2 mm, 15 Hz and 15.2 mm, 20 Hz and 11.9 mm.
#[test]
fn another_rows_figure_is_named_where_it_is_clear() {
    let follows_not = Slip::DoesNotFollow;
    let other = Slip::OtherRowsFigure;
    for (row, field, text, slip) in [
        // 20 Hz with 22.2 mm of 10 Hz; 10 Hz with 11.9 mm of 20 Hz.
        (2, Field::Speed, "0.444", other),
        (0, Field::Speed, "0.119", other),
        // 15 Hz with the 20 Hz of the next row.
        (1, Field::Speed, "0.304", other),
        (1, Field::Frequency, "30.0", other),
        (0, Field::Wavelength, "1.19", other),
        // Too coarse to tell, and what no row's figure gives.
        (2, Field::Speed, "0.44", follows_not),
        (2, Field::Speed, "0.431", follows_not),
        // As clear as it is, a named turn comes before it.
        (0, Field::Wavelength, "1.11", Slip::CrestToTrough),
    ] {
        let mut sheet = ripple(&tank(), SCALE, &Habits::careful(3));
        let unit = match field {
            Field::Speed => "m/s",
            Field::Wavelength => "cm",
            _ => "",
        };
        sheet.rows[row].cells.insert(field, cell(text, unit));
        for blank in [Field::MeanSpeed, Field::Gradient] {
            sheet.whole.remove(&blank);
        }
        assert_eq!(slips(&sheet), [(field, slip, Some(row))], "{text}");
    }
}

/// Rows that differ by less than their figures can show accuse nobody.
#[test]
fn another_rows_figure_is_not_named_where_rows_are_alike() {
    let mut sheet = string(&cord(), &Habits::careful(3));
    write_speed(&mut sheet, 1, "50.1");
    let found = slips(&sheet);
    let named = found.iter().any(|found| found.1 == Slip::OtherRowsFigure);
    assert!(!named && !found.is_empty(), "{found:?}");
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
        &Habits::careful(3).with(Slip::GradientUpsideDown.code(), None),
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

/// The rows that a sheet's mean seems to leave out unsaid.
fn unsaid(sheet: &TypedSheet) -> Vec<Option<usize>> {
    let flags = judged(sheet).flags.into_iter();
    flags
        .filter(|flag| flag.slip == Slip::RowLeftOutUnsaid)
        .map(|flag| flag.row)
        .collect()
}

#[test]
fn several_rows_left_out_of_the_mean_unsaid_are_a_remark() {
    let mut readings = tank();
    readings.push(Reading {
        dial: 4.0,
        span: 12.1,
        ..readings[0]
    });
    let speeds = |sheet: &TypedSheet, rows: std::ops::Range<usize>| {
        let count = rows.len() as f64;
        let speeds = sheet.rows[rows].iter().map(|row| number(row, Field::Speed));
        format!("{:.4}", speeds.sum::<f64>() / count)
    };
    for (rows, out) in [
        (0..4, vec![4, 5]),
        (2..6, vec![0, 1]),
        (0..3, vec![3, 4, 5]),
    ] {
        let mut sheet = ripple(&readings, SCALE, &Habits::careful(4));
        let mean = speeds(&sheet, rows.clone());
        sheet.whole.insert(Field::MeanSpeed, cell(&mean, "m/s"));
        let out: Vec<_> = out.into_iter().map(Some).collect();
        assert_eq!(unsaid(&sheet), out, "the mean of {rows:?}");
        assert_eq!(slips(&sheet), [], "the mean of {rows:?}");
    }
    // Two of six is not half of them.
    let mut sheet = ripple(&readings, SCALE, &Habits::careful(4));
    let mean = speeds(&sheet, 0..2);
    sheet.whole.insert(Field::MeanSpeed, cell(&mean, "m/s"));
    let expected = [(Field::MeanSpeed, Slip::DoesNotFollow, None)];
    assert_eq!((unsaid(&sheet), slips(&sheet)), (vec![], expected.into()));
}

/// Every speed but one is f ÷ λ, and that one is mistyped: the mean is of what
/// they had worked out.
#[test]
fn a_mistyped_speed_is_named_in_its_row_and_not_at_the_mean() {
    for wrong in [None, Some(0)] {
        let mut sheet = string(&cord(), &Habits::careful(4));
        if let Some(row) = wrong {
            let divided = number(&sheet.rows[row], Field::Frequency)
                / number(&sheet.rows[row], Field::Wavelength);
            write_speed(&mut sheet, row, &format!("{divided:.3}"));
        }
        write_mean(&mut sheet, 0..5);
        write_speed(&mut sheet, 3, "84.12");
        let found = slips(&sheet);
        let rows: Vec<_> = found.iter().map(|(step, _, row)| (*step, *row)).collect();
        let expected: Vec<_> = wrong.into_iter().chain([3]).collect();
        let expected: Vec<_> = expected
            .iter()
            .map(|row| (Field::Speed, Some(*row)))
            .collect();
        assert_eq!(rows, expected, "{found:?}");
    }
}

#[test]
fn what_nothing_explains_is_said_not_to_follow() {
    let mut sheet = string(&cord(), &Habits::careful(4));
    write_speed(&mut sheet, 1, "31.37");
    assert!(
        slips(&sheet).contains(&(Field::Speed, Slip::DoesNotFollow, Some(1))),
        "{:?}",
        slips(&sheet)
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

/// Figures of a sheet that are said to have too few significant figures.
fn too_few(sheet: &TypedSheet) -> Vec<(Field, Option<usize>)> {
    let flags = judged(sheet).flags.into_iter();
    flags
        .filter(|flag| flag.slip == Slip::TooFewFigures)
        .map(|flag| (flag.step, flag.row))
        .collect()
}

#[test]
fn figures_are_too_few_only_where_the_readings_carry_more() {
    let mut sheet = ripple(&tank(), SCALE, &without(&Field::ALL));
    for (row, (dial, given)) in [("8", "8"), ("8.0", "8"), ("10", "10"), ("12", "10")]
        .into_iter()
        .enumerate()
    {
        let cells = &mut sheet.rows[row].cells;
        cells.insert(Field::Dial, cell(dial, ""));
        cells.insert(Field::DialTimes, cell("1", ""));
        cells.insert(Field::Frequency, cell(given, ""));
    }
    let frequency = |row| (Field::Frequency, Some(row));
    assert_eq!(
        too_few(&sheet),
        [frequency(1)],
        "8 from a dial that says 8.0"
    );
    for row in 0..2 {
        sheet.rows[row].cells.remove(&Field::Frequency);
    }
    assert_eq!(too_few(&sheet), [frequency(3)], "10 for 12, in tens");
    let mean = cell("0.2", "m/s");
    sheet.whole.insert(Field::MeanSpeed, mean);
    sheet.rows[3].cells.remove(&Field::Frequency);
    assert_eq!(
        too_few(&sheet),
        [(Field::MeanSpeed, None)],
        "of many readings"
    );
}

#[test]
fn the_arithmetic_is_written_out() {
    let habits = Habits::careful(3).with(Slip::ScaleLeftOut.code(), None);
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
        let (last, right) = (
            number(row, Field::LastCrest),
            number(row, Field::Wavelength),
        );
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
