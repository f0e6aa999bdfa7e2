//! Final noughts of whole numbers: a frequency copied from the dial is exact,
//! and noughts are figures where the column shows that they are. They hide no
//! slip, and accuse nobody.

use analysis::field::Field;
use analysis::sheet::TypedSheet;
use analysis::slip::Slip;
use analysis::working::Verdict;

use super::pupil::{Habits, Reading, cell, judged, number, ripple, slips, string, without};

type Found = Vec<(Field, Slip, Option<usize>)>;

/// From 10 to 50 Hz in tens, on clean water 5 mm deep, enlarged 1.75 times.
fn tens(first: u32) -> Vec<Reading> {
    [
        (1.0, 22.2),
        (2.0, 11.9),
        (3.0, 8.60),
        (4.0, 6.93),
        (5.0, 5.90),
    ]
    .map(|(dial, ten_waves): (f64, f64)| Reading {
        dial,
        times: 10.0,
        count: 10,
        first,
        span: (ten_waves * 17.5).round() / 10.0,
    })
    .into()
}

/// A sheet of these readings with its frequencies written `10`, `10.0` and
/// not at all.
fn spellings(readings: &[Reading], habits: &Habits) -> [TypedSheet; 3] {
    let bare = Habits {
        bare: true,
        ..habits.clone()
    };
    let mut blank = habits.clone();
    blank.blank.push(Field::Frequency.name());
    [bare, habits.clone(), blank].map(|habits| ripple(readings, (17.5, 10.0), &habits))
}

/// Speeds alone beside the readings.
fn speeds_alone() -> Habits {
    without(&[
        Field::Magnification,
        Field::Wavelength,
        Field::Reciprocal,
        Field::Gradient,
    ])
}

fn write(sheet: &mut TypedSheet, row: usize, field: Field, text: &str, unit: &str) {
    sheet.rows[row].cells.insert(field, cell(text, unit));
}

/// Loops on a string, speeds near 60 m/s, and these boxes of the result.
fn cord_with(whole: &[(Field, &str)], bare: bool) -> TypedSheet {
    let readings: Vec<_> = [(2.5, 1), (5.0, 2), (7.5, 3), (10.0, 4)]
        .map(|(dial, count)| Reading {
            dial,
            times: 10.0,
            count,
            first: 0,
            span: 1.2,
        })
        .into();
    let habits = Habits {
        bare,
        ..Habits::careful(3)
    };
    let mut sheet = string(&readings, &habits);
    for (field, text) in whole {
        sheet.whole.insert(*field, cell(text, "m/s"));
    }
    sheet
}

#[test]
fn counting_from_one_shows_in_speeds_however_the_frequency_is_written() {
    let habits = speeds_alone().with(Slip::CountedFromOne.code(), None);
    for sheet in spellings(&tens(1), &habits) {
        let found = slips(&sheet);
        assert_eq!(found, [(Field::Speed, Slip::CountedFromOne, None)]);
    }
}

#[test]
fn speeds_nine_per_cent_too_high_do_not_follow() {
    for mut sheet in spellings(&tens(0), &speeds_alone()) {
        for row in 0..sheet.rows.len() {
            let high = 1.09 * number(&sheet.rows[row], Field::Speed);
            write(&mut sheet, row, Field::Speed, &format!("{high:.3}"), "m/s");
        }
        sheet.whole.remove(&Field::MeanSpeed);
        assert_eq!(slips(&sheet), [(Field::Speed, Slip::DoesNotFollow, None)]);
    }
}

#[test]
fn wrong_speeds_are_named_in_their_rows_and_not_at_a_mean_that_is_right() {
    for mut sheet in spellings(&tens(0)[..3], &speeds_alone()) {
        for (row, speed) in ["0.300", "0.180", "0.280"].into_iter().enumerate() {
            write(&mut sheet, row, Field::Speed, speed, "m/s");
        }
        let mean = cell("0.253", "m/s");
        sheet.whole.insert(Field::MeanSpeed, mean);
        let found = slips(&sheet);
        assert!(!found.is_empty());
        assert!(
            found.iter().all(|(step, ..)| *step == Field::Speed),
            "{found:?}"
        );
    }
    for bare in [true, false] {
        let mut sheet = cord_with(&[(Field::MeanSpeed, "55.3")], bare);
        sheet.whole.remove(&Field::Gradient);
        write(&mut sheet, 1, Field::Speed, "66", "m/s");
        write(&mut sheet, 3, Field::Speed, "35", "m/s");
        let expected: Found = [1, 3]
            .map(|row| (Field::Speed, Slip::DoesNotFollow, Some(row)))
            .into();
        assert_eq!(slips(&sheet), expected, "bare: {bare}");
    }
}

#[test]
fn a_hundred_is_not_a_mean_or_a_gradient_of_sixty() {
    for field in [Field::MeanSpeed, Field::Gradient] {
        for (speeds, text) in [(true, "100"), (false, "100"), (true, "70")] {
            let mut sheet = cord_with(&[(field, text)], true);
            if !speeds {
                for row in &mut sheet.rows {
                    row.cells.remove(&Field::Speed);
                }
            }
            let found = slips(&sheet);
            assert_eq!(found.len(), 1, "{field:?} {text}: {found:?}");
            assert_eq!(found[0].0, field, "{field:?} {text}: {found:?}");
        }
        let right = cord_with(&[(field, "60")], true);
        assert_eq!(slips(&right), [], "{field:?}");
    }
}

/// Verdicts of a column of wavelengths in mm: the right ones are 22.2, 18.6
/// and 17.2.
fn wavelengths(typed: [&str; 3]) -> Vec<Verdict> {
    let readings: Vec<_> = [(1.0, 38.9), (1.2, 32.6), (1.3, 30.1)]
        .map(|(dial, span)| Reading {
            dial,
            times: 10.0,
            count: 10,
            first: 0,
            span,
        })
        .into();
    let mut sheet = ripple(&readings, (17.5, 10.0), &without(&Field::ALL));
    let enlargement = cell("1.750", "");
    sheet.whole.insert(Field::Magnification, enlargement);
    for (row, text) in typed.into_iter().enumerate() {
        write(&mut sheet, row, Field::Wavelength, text, "mm");
    }
    let comparisons = judged(&sheet).comparisons.into_iter();
    let of_column = comparisons.filter(|c| c.field == Field::Wavelength);
    of_column.map(|c| c.verdict).collect()
}

#[test]
fn a_column_in_tens_is_right_to_the_nearest_ten_and_one_in_units_is_not() {
    use Verdict::{Right, Wrong};
    for (typed, verdicts) in [
        (["20", "20", "20"], [Right, Right, Right]),
        (["20", "20", "10"], [Right, Right, Wrong]),
        (["22", "20", "17"], [Right, Wrong, Right]),
        (["22", "19", "20"], [Right, Right, Wrong]),
        (["22.2", "18.6", "20"], [Right, Right, Wrong]),
        (["20", "19", "17"], [Wrong, Right, Right]),
        (["100", "20", "20"], [Wrong, Right, Right]),
    ] {
        assert_eq!(wavelengths(typed), verdicts, "{typed:?}");
    }
}

/// A frequency that is no copy: counted waves give 9.6, 20.3 and 29.7 Hz.
#[test]
fn a_counted_frequency_in_tens_is_right_and_what_follows_from_it_too() {
    let mut sheet = ripple(&tens(0)[..3], (17.5, 10.0), &speeds_alone());
    let counted = [("96", "10"), ("203", "20"), ("297", "30")];
    for (at, (waves, given)) in counted.into_iter().enumerate() {
        let cells = &mut sheet.rows[at].cells;
        cells.remove(&Field::Dial);
        cells.remove(&Field::DialTimes);
        for (field, text) in [
            (Field::PassesFirst, "0"),
            (Field::PassesLast, waves),
            (Field::Seconds, "10.0"),
            (Field::Frequency, given),
        ] {
            cells.insert(field, cell(text, ""));
        }
    }
    sheet.whole.remove(&Field::MeanSpeed);
    // With 10, 20 and 30 Hz; then with the calculator's 9.6, 20.3 and 29.7.
    for speeds in [["0.222", "0.238", "0.259"], ["0.213", "0.241", "0.256"]] {
        for (row, speed) in speeds.into_iter().enumerate() {
            write(&mut sheet, row, Field::Speed, speed, "m/s");
        }
        assert_eq!(slips(&sheet), [], "{speeds:?}");
    }
    write(&mut sheet, 1, Field::Speed, "0.300", "m/s");
    let expected = [(Field::Speed, Slip::DoesNotFollow, Some(1))];
    assert_eq!(slips(&sheet), expected, "25 % too high");
}
