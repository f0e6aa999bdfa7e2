//! NIST's certified means and standard deviations; medians.

use analysis::stats::spread::{mean, mean_estimate, median_interval95, pooled_sd, sample_sd};
use serde_json::Value;

use super::{count, digits, load, number, numbers, rows};

/// The values of a set: listed, or for the sets made by a rule, made by it.
fn values(set: &Value) -> Vec<f64> {
    if let Some(pair) = set.get("repeated") {
        let mut values = vec![number(&set["first"])];
        for _ in 0..500 {
            values.extend(numbers(pair));
        }
        return values;
    }
    numbers(&set["values"])
}

/// The digits of the standard deviation that double precision allows. The data themselves are rounded to double
/// precision: 0.1 beside 10 000 000.2 (`NumAcc4`) keeps eight digits and beside
/// 1 000 000.2 nine. `Michelso` and `Mavro` lose what the mean is larger than
/// the scatter, and the thousand squares of `NumAcc2` one digit to their sum.
fn digits_of_sd(set: &str) -> f64 {
    match set {
        "NumAcc4" => 8.0,
        "NumAcc3" => 9.0,
        "Mavro" | "Michelso" => 13.0,
        "NumAcc2" => 14.0,
        _ => 15.0,
    }
}

#[test]
fn every_certified_univariate_set() {
    let data = load(include_str!("data/nist_univariate.json"));
    for set in rows(&data["datasets"]) {
        let name = set["name"].as_str().unwrap();
        let values = values(set);
        assert_eq!(values.len(), count(&set["n"]), "{name}");

        let of_mean = digits(mean(&values).unwrap(), number(&set["mean"]));
        // Certified to 15 figures, and so is the mean of doubles of one size.
        assert!(of_mean >= 14.9, "{name}: {of_mean} digits of the mean");

        let of_sd = digits(sample_sd(&values).unwrap(), number(&set["sd"]));
        assert!(
            of_sd >= digits_of_sd(name),
            "{name}: {of_sd} digits of the SD"
        );
    }
}

#[test]
fn too_few_values_have_no_scatter() {
    assert_eq!(
        (mean(&[]), sample_sd(&[1.0]), mean_estimate(&[])),
        (None, None, None)
    );
    let one = mean_estimate(&[0.25]).unwrap();
    assert_eq!((one.df, one.interval95()), (0, None));
    assert!((one.value - 0.25).abs() + one.se.abs() < 1e-300, "{one:?}");
}

/// By hand: squares 2 on 2 degrees of freedom and 8 on 1; a lone value has
/// none. √(10/3).
#[test]
fn groups_pool_their_squares_and_not_their_levels() {
    let groups: [&[f64]; 3] = [&[1.0, 2.0, 3.0], &[100.0, 104.0], &[7.0]];
    assert!((pooled_sd(&groups).unwrap() - (10.0_f64 / 3.0).sqrt()).abs() < 1e-15);
    assert_eq!(pooled_sd(&[&[7.0], &[]]), None);
}

/// By hand: 2 ± 4.303 × 1/√3 (t on two degrees of freedom).
#[test]
fn a_mean_has_its_interval() {
    let interval = mean_estimate(&[1.0, 2.0, 3.0])
        .unwrap()
        .interval95()
        .unwrap();
    assert!((interval.mid() - 2.0).abs() < 1e-15, "{interval:?}");
    // 4.303 has four figures: half a unit in the last, twice, over √3.
    assert!(
        (interval.width() - 2.0 * 4.303 / 3.0_f64.sqrt()).abs() < 6e-4,
        "{interval:?}"
    );
}

#[test]
fn a_median_lies_between_the_ranks_that_another_program_has() {
    let data = load(include_str!("data/median_ranks.json"));
    for row in rows(&data["ranks"]) {
        let n = u32::try_from(count(&row[0])).unwrap();
        // From the highest down: the order does not matter.
        let values: Vec<f64> = (1..=n).rev().map(f64::from).collect();
        let found = median_interval95(&values).unwrap();
        assert_eq!(vec![found.low, found.high], numbers(row)[1..], "{row}");
    }
    assert_eq!(median_interval95(&[1.0, 2.0, 3.0, 4.0, 5.0]), None);
    assert_eq!(median_interval95(&[]), None);
}
