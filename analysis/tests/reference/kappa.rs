//! Kappa, weighted and not.

use analysis::stats::agreement::{Kappa, linear, weighted_kappa};
use serde_json::Value;

use super::{count, digits, load, number, numbers, rounds_to, rows};

/// The pairs of a table of counts, the row being the first marker's.
fn pairs(counts: &Value) -> Vec<(f64, f64)> {
    let mut pairs = Vec::new();
    for (first, row) in (0..).zip(rows(counts)) {
        for (second, n) in (0..).zip(rows(row)) {
            pairs.resize(
                pairs.len() + count(n),
                (f64::from(first), f64::from(second)),
            );
        }
    }
    pairs
}

fn kappa(pairs: &[(f64, f64)], disagreement: fn(f64, f64) -> f64) -> Kappa {
    weighted_kappa(pairs, disagreement).expect("marks that differ")
}

/// Every disagreement weighs the same: Cohen's kappa of 1960.
fn nominal(first: f64, second: f64) -> f64 {
    f64::from((first - second).abs() > 0.0)
}

fn quadratic(first: f64, second: f64) -> f64 {
    (first - second).powi(2)
}

/// Cohen's disagreement weights; the first judge's figure chooses the row.
fn cohens(first: f64, second: f64) -> f64 {
    let is = |x: f64, level: f64| (x - level).abs() < 0.5;
    match (first, second) {
        (x, y) if is(x, y) => 0.0,
        (x, y) if is(x + y, 1.0) => 1.0,
        (x, y) if is(x + y, 2.0) => 3.0,
        _ => 6.0,
    }
}

/// Those of his example in which it matters who gave which figure.
fn cohens_lopsided(first: f64, second: f64) -> f64 {
    let is = |x: f64, level: f64| (x - level).abs() < 0.5;
    match (first, second) {
        (x, y) if is(x, 0.0) && is(y, 2.0) => 4.0,
        (x, y) if is(x, 2.0) && !is(y, 2.0) => 2.0,
        (x, y) => cohens(x, y),
    }
}

#[test]
fn kappa_as_cohen_prints_it() {
    let data = load(include_str!("data/kappa.json"));
    let table = &data["tables"][0];
    let judged = pairs(&table["counts"]);
    assert_eq!(judged.len(), 200);
    for (weights, key) in [
        (cohens as fn(f64, f64) -> f64, "weights"),
        (cohens_lopsided, "other_weights"),
    ] {
        for (x, row) in (0..).zip(rows(&table[key])) {
            let ours: Vec<f64> = (0..3)
                .map(|y| weights(f64::from(x), f64::from(y)))
                .collect();
            assert_eq!(ours, numbers(row), "{key} are those of the example");
        }
    }
    for (weights, key) in [
        (nominal as fn(f64, f64) -> f64, "kappa"),
        (cohens, "weighted"),
        (cohens_lopsided, "other_weighted"),
    ] {
        let found = kappa(&judged, weights);
        assert!(rounds_to(found.value, &table[key]), "{key}: {found:?}");
    }
}

#[test]
fn kappa_and_its_standard_error_as_sas_has_them() {
    let data = load(include_str!("data/kappa.json"));
    let table = &data["tables"][1];
    let judged = pairs(&table["counts"]);
    for (weights, [value, se, interval]) in [
        (nominal as fn(f64, f64) -> f64, ["kappa", "se", "interval"]),
        (linear, ["linear", "linear_se", "linear_interval"]),
    ] {
        let found = kappa(&judged, weights);
        assert!(rounds_to(found.value, &table[value]), "{found:?}");
        assert!(rounds_to(found.se, &table[se]), "{found:?}");
        let ends = found.interval95().unwrap();
        assert!(rounds_to(ends.low, &table[interval][0]), "{ends:?}");
        assert!(rounds_to(ends.high, &table[interval][1]), "{ends:?}");
    }
}

#[test]
fn kappas_and_standard_errors_as_another_program_has_them() {
    let data = load(include_str!("data/kappa.json"));
    let table = &data["tables"][2];
    let judged = pairs(&table["counts"]);
    // Exactly so; shares of 200 and their sums are each rounded.
    assert!((kappa(&judged, nominal).value - 3.0 / 7.0).abs() < 1e-14);
    for (weights, key) in [
        (nominal as fn(f64, f64) -> f64, "nominal"),
        (linear, "linear"),
        (quadratic, "quadratic"),
    ] {
        let (found, theirs) = (kappa(&judged, weights), numbers(&table["computed"][key]));
        assert!(digits(found.value, theirs[0]) > 13.0, "{key}: {found:?}");
        assert!(digits(found.se, theirs[1]) > 13.0, "{key}: {found:?}");
    }
}

/// Level 6 is the first marker's alone and 4 is rare: weights go by the
/// marks, not by how many levels were used.
#[test]
fn kappas_of_twenty_pairs_of_marks() {
    let data = load(include_str!("data/kappa.json"));
    let set = &data["pairs"];
    let marks: Vec<(f64, f64)> = rows(&set["marks"])
        .iter()
        .map(|pair| (number(&pair[0]), number(&pair[1])))
        .collect();
    for (weights, key) in [
        (nominal as fn(f64, f64) -> f64, "nominal"),
        (linear, "linear"),
        (quadratic, "quadratic"),
    ] {
        // Printed to twelve figures.
        let found = kappa(&marks, weights);
        assert!(
            digits(found.value, number(&set[key])) > 11.0,
            "{key}: {found:?}"
        );
    }
}

#[test]
fn chance_that_leaves_nothing_to_disagree_on_has_no_kappa() {
    assert_eq!(weighted_kappa(&[], linear), None);
    assert_eq!(weighted_kappa(&[(2.0, 2.0); 5], linear), None);
    assert_eq!(
        weighted_kappa(&[(2.0, f64::NAN), (1.0, 1.0)], nominal),
        None
    );
    // One marker is constant, the other is not: no better than chance.
    let found = kappa(&[(2.0, 2.0), (2.0, 1.0)], linear);
    assert!(found.value.abs() < 1e-15, "{found:?}");
}
