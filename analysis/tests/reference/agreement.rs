//! Two markers, or two meters: differences, correlations, axis and drift.

use analysis::interval::Interval;
use analysis::stats::agreement::{
    concordance, count_within, differences, drift, major_axis, mid_ranks, pearson, spearman,
};
use analysis::stats::spread::difference_of_means;
use serde_json::Value;

use super::{digits, load, number, numbers, rounds_to};

/// Both are double precision; a variance costs each a digit or two.
const DIGITS: f64 = 13.0;

fn pairs(first: &Value, second: &Value) -> Vec<(f64, f64)> {
    numbers(first).into_iter().zip(numbers(second)).collect()
}

fn peak_flow() -> (Value, Vec<(f64, f64)>) {
    let data = load(include_str!("data/bland_altman.json"));
    let pairs = pairs(&data["mini"], &data["wright"]);
    (data, pairs)
}

fn agree(found: f64, computed: &Value) {
    let same = digits(found, number(computed));
    assert!(same >= DIGITS, "{computed}: {same} digits of {found}");
}

/// Student's t keeps 12 digits (`quantiles.rs`), and a sum may cost half a
/// digit of an end.
fn ends_agree(found: Option<Interval>, computed: &Value) {
    let found = found.expect("an interval");
    for (end, theirs) in [found.low, found.high].into_iter().zip(numbers(computed)) {
        assert!(digits(end, theirs) > 11.5, "{computed}: {found:?}");
    }
}

#[test]
fn peak_flow_differences_as_bland_and_altman_print_them() {
    let (data, pairs) = peak_flow();
    let published = &data["published"];
    let found = differences(&pairs).unwrap();
    assert_eq!((found.n, found.mean.df), (17, 16));
    assert_eq!(found.farthest, 14, "178 and 259");
    assert!(rounds_to(found.mean.value, &published["mean"]), "{found:?}");
    assert!(rounds_to(found.sd, &published["sd"]), "{found:?}");
    let limits = found.limits_at(2.0);
    for (limit, printed) in [
        (limits.lower, &published["lower_limit"]),
        (limits.upper, &published["upper_limit"]),
    ] {
        // Worked from -2.1 and 38.8, each rounded by up to 0.05: the mean
        // carries that once into the limit and the deviation twice.
        assert!((limit.value - number(printed)).abs() < 0.15, "{limits:?}");
    }
    let interval = limits.lower.interval95().unwrap();
    let printed = &published["interval_of_lower_limit"];
    // And t of 2.12 times a standard error of 16.3 once more.
    assert!(
        (interval.low - number(&printed[0])).abs() < 0.2,
        "{interval:?}"
    );
    assert!(
        (interval.high - number(&printed[1])).abs() < 0.2,
        "{interval:?}"
    );
}

#[test]
fn peak_flow_differences_to_full_precision() {
    let (data, pairs) = peak_flow();
    let computed = &data["computed"];
    let found = differences(&pairs).unwrap();
    agree(found.mean.value, &computed["mean"]);
    agree(found.sd, &computed["sd"]);
    agree(found.mean_absolute, &computed["mean_absolute"]);
    ends_agree(found.mean.interval95(), &computed["mean_interval"]);
    let at_two = found.limits_at(2.0);
    agree(at_two.lower.value, &computed["limits"][0]);
    agree(at_two.upper.value, &computed["limits"][1]);
    agree(at_two.lower.se, &computed["se_of_limits"]);
    ends_agree(at_two.lower.interval95(), &computed["lower_limit_interval"]);
    ends_agree(at_two.upper.interval95(), &computed["upper_limit_interval"]);
    let usual = found.limits_of_agreement();
    agree(usual.lower.value, &computed["limits_1_96"][0]);
    agree(usual.upper.value, &computed["limits_1_96"][1]);
}

#[test]
fn peak_flow_correlations() {
    let (data, pairs) = peak_flow();
    agree(pearson(&pairs).unwrap(), &data["computed"]["pearson"]);
    agree(
        concordance(&pairs).unwrap(),
        &data["computed"]["concordance"],
    );
}

#[test]
fn two_markers_as_another_program_has_them() {
    let data = load(include_str!("data/markers.json"));
    let pairs = pairs(&data["first"], &data["second"]);
    let ranks = mid_ranks(&numbers(&data["first"]));
    // Ranks are whole numbers and halves: exact.
    assert_eq!(ranks, numbers(&data["first_ranks"]));
    agree(spearman(&pairs).unwrap(), &data["spearman"]);
    agree(pearson(&pairs).unwrap(), &data["pearson"]);

    let axis = major_axis(&pairs).unwrap();
    let theirs = &data["major_axis"];
    assert!(
        digits(axis.slope, number(&theirs["slope"])) > 11.0,
        "{axis:?}"
    );
    let (interval, ends) = (axis.interval95.unwrap(), numbers(&theirs["interval"]));
    // Given to ten figures.
    assert!(digits(interval.low, ends[0]) > 9.0, "{axis:?}");
    assert!(digits(interval.high, ends[1]) > 9.0, "{axis:?}");
    // What the module promises: least squares flattens the line.
    assert!(number(&data["least_squares_slope"]) < axis.slope);
}

#[test]
fn a_drift_as_another_program_has_it() {
    let data = load(include_str!("data/markers.json"));
    let pairs = pairs(&data["first"], &data["second"]);
    let placed: Vec<(f64, f64)> = (1..)
        .zip(&pairs)
        .map(|(place, (first, second))| (f64::from(place), second - first))
        .collect();
    let theirs = &data["drift_over_the_order_given"];
    let found = drift(&placed).unwrap();
    agree(found.slope.value, &theirs["slope"]);
    agree(found.slope.se, &theirs["se"]);
    assert_eq!(found.slope.df, 14);
    let change = found.last_less_first_third;
    agree(change.value, &theirs["last_less_first_five"]);
    ends_agree(change.interval95(), &theirs["interval"]);
    let reversed: Vec<_> = placed.into_iter().rev().collect();
    assert_eq!(
        drift(&reversed),
        Some(found),
        "the place counts, not the row"
    );
}

/// The kinds of agreement that the data have, counted by eye.
#[test]
fn agreement_within_a_tolerance_is_counted() {
    let marks = [(4.0, 4.0), (5.0, 6.0), (7.5, 7.0), (3.0, 5.0), (0.3, 0.2)];
    let counted: Vec<usize> = [0.0, 0.1, 0.5, 1.0, 2.0]
        .into_iter()
        .map(|tolerance| count_within(&marks, tolerance))
        .collect();
    assert_eq!(counted, [1, 2, 3, 4, 5]);
    assert_eq!(
        (count_within(&marks, -1.0), count_within(&marks, f64::NAN)),
        (0, 0)
    );
}

#[test]
fn differences_that_cancel_still_show_their_size() {
    let found = differences(&[(10.0, 12.0), (10.0, 8.0)]).unwrap();
    assert!(found.mean.value.abs() < 1e-15 && (found.mean_absolute - 2.0).abs() < 1e-15);
}

#[test]
fn too_few_pairs_say_nothing() {
    let three = [(1.0, 2.0), (2.0, 2.0), (3.0, 4.0)];
    assert_eq!(differences(&three[..1]), None);
    assert_eq!((pearson(&three[..2]), spearman(&three[..2])), (None, None));
    assert_eq!(
        (concordance(&three[..2]), major_axis(&three[..2])),
        (None, None)
    );
    assert_eq!(drift(&three[..2]), None);
    assert_eq!(difference_of_means(&[], &[1.0]), None);
    assert_eq!(major_axis(&three).unwrap().interval95, None);
    let change = drift(&three).unwrap().last_less_first_third;
    assert_eq!((change.df, change.interval95()), (0, None));
}

#[test]
fn one_mark_for_everybody_has_no_correlation() {
    let same = [(5.1, 1.0), (5.1, 2.0), (5.1, 4.0)];
    assert_eq!((pearson(&same), spearman(&same)), (None, None));
    assert_eq!(major_axis(&same), None, "the axis is vertical");
    assert!(concordance(&same).unwrap().abs() < 1e-15);
    assert_eq!(concordance(&[(5.1, 5.1); 3]), None);
    let broad_as_long = [(0.0, 0.0), (0.0, 1.0), (1.0, 0.0), (1.0, 1.0)];
    assert_eq!(major_axis(&broad_as_long), None);
}
