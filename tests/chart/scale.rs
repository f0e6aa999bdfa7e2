//! The numbers along an axis.

use proptest::prelude::*;
use server::chart::scale::Scale;

fn labels(largest: f64, most: u32) -> Vec<String> {
    let scale = Scale::to_cover(largest, most).unwrap();
    scale.ticks().into_iter().map(|tick| tick.text).collect()
}

#[test]
fn steps_are_easy_numbers() {
    assert_eq!(
        labels(40.0, 10),
        ["0", "5", "10", "15", "20", "25", "30", "35", "40", "45"]
    );
    assert_eq!(labels(2.3, 10), ["0", "0.5", "1.0", "1.5", "2.0", "2.5"]);
    assert_eq!(labels(165.0, 10).last().unwrap(), "180");
    assert_eq!(labels(0.07, 8).last().unwrap(), "0.08");
}

#[test]
fn a_value_at_a_round_number_is_short_of_the_end() {
    assert_eq!(labels(100.0, 10).last().unwrap(), "120");
}

#[test]
fn powers_of_ten_of_enormous_and_tiny_values_go_into_the_unit() {
    let enormous = Scale::to_cover(1.2e12, 10).unwrap();
    assert_eq!(enormous.exponent, 12);
    assert_eq!(enormous.ticks().last().unwrap().text, "1.4");
    let tiny = Scale::to_cover(3.1e-5, 10).unwrap();
    assert_eq!(tiny.exponent, -6);
    assert_eq!(tiny.ticks().last().unwrap().text, "35");
}

#[test]
fn fine_lines_divide_a_step_into_easy_numbers() {
    // Steps of 20 in squares of 5; steps of 5 in squares of 1.
    let twenties = Scale::to_cover(165.0, 10).unwrap();
    assert_eq!(twenties.fine_lines().len(), 9 * 3);
    let fives = Scale::to_cover(40.0, 10).unwrap();
    assert_eq!(fives.fine_lines().len(), 9 * 4);
}

#[test]
fn what_has_no_place_on_an_axis_has_no_axis() {
    for value in [0.0, -1.0, f64::NAN, f64::INFINITY, f64::MAX, 5e-324] {
        assert_eq!(Scale::to_cover(value, 10), None, "{value}");
    }
}

fn texts(low: f64, high: f64, most: u32) -> Vec<String> {
    let scale = Scale::around(low, high, most).unwrap();
    scale.ticks().into_iter().map(|tick| tick.text).collect()
}

#[test]
fn axis_reaches_both_values_in_easy_steps() {
    assert_eq!(
        texts(0.93, 1.07, 8),
        [
            "0.92", "0.94", "0.96", "0.98", "1.00", "1.02", "1.04", "1.06", "1.08"
        ]
    );
    assert_eq!(texts(-7.0, 12.0, 6), ["−10", "−5", "0", "5", "10", "15"]);
    assert_eq!(texts(0.0, 100.0, 5), ["0", "20", "40", "60", "80", "100"]);
}

#[test]
fn nothing_can_be_drawn_of_what_is_no_number() {
    assert_eq!(Scale::around(f64::NAN, 1.0, 5), None);
    assert_eq!(Scale::around(0.0, f64::INFINITY, 5), None);
    assert_eq!(Scale::around(f64::NEG_INFINITY, f64::NAN, 5), None);
}

#[test]
fn axis_about_one_value_has_room_for_it() {
    for value in [1.0, -0.03, 0.0] {
        let span = Scale::around(value, value, 5);
        assert!(span.is_none_or(|span| span.holds(value)), "{value}");
    }
    assert_eq!(texts(1.0, 1.0, 5), ["0", "2"]);
}

#[test]
fn value_beyond_the_axis_is_at_its_end() {
    let span = Scale::around(0.0, 10.0, 5).unwrap();
    assert!((span.share(25.0) - 1.0).abs() < 1e-12);
    assert!(!span.holds(25.0) && span.holds(10.0));
}

proptest! {
    #[test]
    fn every_axis_covers_its_values_with_more_than_half_in_use(
        mantissa in 1.0..10.0_f64,
        power in -280..280_i32,
        most in 4..12_u32,
    ) {
        let largest = mantissa * 10_f64.powi(power);
        let scale = Scale::to_cover(largest, most).unwrap();
        let ticks = scale.ticks();
        prop_assert!(scale.end() >= largest);
        prop_assert!(scale.end() < 2.0 * largest, "{} for {largest}", scale.end());
        prop_assert!(ticks.len() <= usize::try_from(most).unwrap() + 1);
        prop_assert!([1, 2, 5].contains(&scale.mantissa));
        prop_assert_eq!(ticks[0].text.as_str(), "0");
        for pair in ticks.windows(2) {
            let value = |text: &str| text.parse::<f64>().unwrap();
            prop_assert!(value(&pair[0].text) < value(&pair[1].text));
            prop_assert!(pair[1].text.len() <= 5, "{}", pair[1].text);
        }
    }
}
