//! What is on no list is said to be so, and never called clean; and lengths in
//! another unit, which nothing but their unit explains.

use analysis::field::Field;
use analysis::reading::{Cause, Inference};
use analysis::sheet::TypedSheet;
use simulator::kit::Tank;

use super::{alone, cell, first, retype, slips, string, tank, times, used_water};

fn clean() -> TypedSheet {
    tank(used_water())
}

fn is_unexplained(inference: &Inference) {
    let found = first(inference, Cause::Unexplained, None);
    assert!(found.probability > 0.9, "{inference:?}");
    assert!(inference.no_slip < 0.1, "{inference:?}");
}

/// Waves measured on the screen, and no enlargement written down.
fn without_enlargement(enlargement: f64) -> TypedSheet {
    let mut sheet = tank(Tank {
        enlargement,
        ..used_water()
    });
    sheet.whole.remove(&Field::ScaleImage);
    sheet.whole.remove(&Field::ScaleTrue);
    sheet
}

#[test]
fn an_enlargement_that_nobody_measured_is_said_with_its_factor() {
    for enlargement in [1.5, 1.75, 2.5] {
        let inference = alone(&without_enlargement(enlargement));
        let found = first(&inference, Cause::ScaleNotFound, None);
        assert!(found.probability > 0.9, "{inference:?}");
        assert_eq!(found.step, Field::ScaleImage);
        // The water's own state is not known better than this.
        let factor = 1.0 + found.misfit.before;
        assert!((factor / enlargement - 1.0).abs() < 0.12, "{inference:?}");
    }
}

#[test]
fn waves_measured_in_the_water_itself_need_no_enlargement() {
    let inference = alone(&without_enlargement(1.0));
    assert!(inference.no_slip > 0.9, "{inference:?}");
    assert_eq!(slips(&inference).count(), 0, "{inference:?}");
}

#[test]
fn a_level_that_nothing_explains_is_said_with_its_factor() {
    for factor in [1.7, 3.3] {
        let mut sheet = clean();
        retype(&mut sheet, None, Field::Span, times(factor, 1));
        let inference = alone(&sheet);
        is_unexplained(&inference);
        let given: f64 = inference.findings[0].given.parse().expect("a ratio");
        assert!((given / factor - 1.0).abs() < 0.12, "{inference:?}");
    }
}

#[test]
fn two_sets_of_rows_that_do_not_belong_together_are_not_called_clean() {
    let mut sheet = clean();
    for row in 3..6 {
        retype(&mut sheet, Some(row), Field::Dial, times(0.4, 2));
    }
    is_unexplained(&alone(&sheet));
}

#[test]
fn frequencies_guessed_by_eye_are_not_called_clean() {
    let mut sheet = string(true);
    retype(&mut sheet, None, Field::Dial, |_| "5".to_owned());
    let inference = alone(&sheet);
    assert!(inference.no_slip < 0.1, "{inference:?}");
    assert!(!inference.findings.is_empty(), "{inference:?}");
}

/// Given and expected of the first finding, which must be a unit's.
fn unit(inference: &Inference, row: Option<usize>) -> (Field, String, String) {
    let found = first(inference, Cause::UnitPowerOfTen, row);
    assert!(found.probability > 0.8, "{inference:?}");
    let readings = (found.given.clone(), found.expected.clone());
    (found.step, readings.0, readings.1)
}

#[test]
fn spans_in_millimetres_under_centimetres_are_a_unit_and_no_swapped_digits() {
    let mut sheet = clean();
    retype(&mut sheet, None, Field::Span, times(10.0, 0));
    let inference = alone(&sheet);
    let (step, given, expected) = unit(&inference, None);
    assert_eq!(step, Field::Span, "{inference:?}");
    let number = |text: &str| -> f64 {
        let figure = text.strip_suffix(" cm").expect("in the unit as typed");
        figure.parse().expect("a figure")
    };
    assert!(
        (number(&given) / number(&expected) - 10.0).abs() < 0.1,
        "{given}, {expected}"
    );

    let mut sheet = clean();
    retype(&mut sheet, Some(2), Field::Span, times(10.0, 0));
    assert_eq!(unit(&alone(&sheet), Some(2)).0, Field::Span);
}

#[test]
fn a_length_of_the_enlargement_in_another_unit_is_named_by_its_box() {
    let mut sheet = clean();
    let image = sheet.whole.get_mut(&Field::ScaleImage).expect("an image");
    let figure: f64 = image.text.parse().expect("a figure");
    *image = cell(&format!("{:.0}", figure * 10.0), "cm");
    assert_eq!(unit(&alone(&sheet), None).0, Field::ScaleImage);
}

#[test]
fn lengths_of_a_string_in_centimetres_under_metres_are_a_unit() {
    let mut sheet = string(true);
    retype(&mut sheet, None, Field::Length, times(100.0, 1));
    assert_eq!(unit(&alone(&sheet), None).0, Field::Length);
}

#[test]
fn no_digits_are_swapped_that_would_put_a_nought_first() {
    let mut sheet = clean();
    for row in 0..6 {
        retype(&mut sheet, Some(row), Field::Span, |_| "10.0".to_owned());
    }
    let inference = alone(&sheet);
    for found in slips(&inference).filter(|found| found.cause == Cause::DigitsSwapped) {
        assert!(!found.expected.starts_with('0'), "{found:?}");
    }
}
