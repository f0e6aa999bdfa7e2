//! Two markers, or two meters: differences and limits of agreement.

use analysis::interval::Interval;
use analysis::stats::agreement::{count_within, differences};
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
fn too_few_pairs_say_nothing() {
    assert_eq!(differences(&[(1.0, 2.0)]), None);
}
