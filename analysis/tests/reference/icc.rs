//! The intraclass correlation of one mark.

use analysis::stats::agreement::intraclass_correlation;

use super::{digits, load, number, numbers, rounds_to, rows};

#[test]
fn six_targets_by_four_judges() {
    let data = load(include_str!("data/icc.json"));
    let table: Vec<Vec<f64>> = rows(&data["table"]).iter().map(numbers).collect();
    let found = intraclass_correlation(&table).unwrap();
    assert!(rounds_to(found.value, &data["published"]), "{found:?}");
    let theirs = number(&data["pingouin_value"]);
    assert!(digits(found.value, theirs) > 13.0, "{found:?}");
    let interval = found.interval95.unwrap();
    for printed in [&data["pingouin_interval"], &data["psych_interval"]] {
        assert!(rounds_to(interval.low, &printed[0]), "{interval:?}");
        assert!(rounds_to(interval.high, &printed[1]), "{interval:?}");
    }
}

#[test]
fn full_agreement_is_one_with_no_room_about_it() {
    let table = vec![vec![0.1, 0.1], vec![0.7, 0.7], vec![0.3, 0.3]];
    let found = intraclass_correlation(&table).unwrap();
    let interval = found.interval95.unwrap();
    assert!((found.value - 1.0).abs() < 1e-12, "{found:?}");
    assert!((interval.low - 1.0).abs() < 1e-12 && interval.high <= 1.0);
}

#[test]
fn tables_with_nothing_to_compare_have_no_correlation() {
    let none = |table: &[Vec<f64>]| assert_eq!(intraclass_correlation(table), None);
    none(&[]);
    none(&[vec![1.0, 2.0]]);
    none(&[vec![1.0], vec![2.0]]);
    none(&[vec![1.0, 2.0], vec![2.0]]);
    none(&[vec![0.1, 0.1], vec![0.1, 0.1]]);
    none(&[vec![1.0, f64::NAN], vec![2.0, 3.0]]);
    // Sheets that do not differ on the mean.
    let crossed = intraclass_correlation(&[vec![0.1, 0.3], vec![0.3, 0.1]]).unwrap();
    assert!((crossed.value + 1.0).abs() < 1e-12, "{crossed:?}");
}
