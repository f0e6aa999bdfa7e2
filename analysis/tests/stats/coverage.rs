//! How often intervals hold the truth, by simulation with fixed seeds.
//!
//! A rate p found in N trials has a standard error √(p (1 − p)/N). Each bound
//! here is four of those: a right interval fails it once in 16 000 seeds.

use analysis::interval::Interval;
use analysis::stats::agreement::{intraclass_correlation, linear, weighted_kappa};
use analysis::stats::interval::newcombe95;
use analysis::stats::precision::precision;
use analysis::stats::spread::median_interval95;
use simulator::dice::Dice;

const TRIALS: u32 = 10_000;

/// Four standard errors of a rate of 5 %.
fn bound() -> f64 {
    4.0 * (0.05 * 0.95 / f64::from(TRIALS)).sqrt()
}

/// The share of trials that say yes.
fn rate(seed: u64, says_yes: impl Fn(&mut Dice) -> bool) -> f64 {
    let mut dice = Dice::new(seed);
    let hits: u32 = (0..TRIALS).map(|_| u32::from(says_yes(&mut dice))).sum();
    f64::from(hits) / f64::from(TRIALS)
}

fn holds(interval: Option<Interval>, truth: f64) -> bool {
    interval.is_some_and(|interval| interval.contains(truth))
}

/// Ten sheets by four markers: sheets scatter with variance 4, the rest with 1.
#[test]
fn an_intraclass_correlation_is_held_in_95_of_100() {
    let found = rate(6, |dice| {
        let row = |dice: &mut Dice| {
            let quality = 2.0 * dice.normal();
            (0..4).map(|_| quality + dice.normal()).collect()
        };
        let table: Vec<Vec<f64>> = (0..10).map(|_| row(dice)).collect();
        let icc = intraclass_correlation(&table).expect("sheets differ");
        holds(icc.interval95, 0.8)
    });
    assert!((found - 0.95).abs() < bound(), "{found}");
}

/// The large-sample error, at a size where it should hold: 200 pairs.
#[test]
fn weighted_kappa_is_held_in_95_of_100() {
    // First marks are 0 to 3 with equal chance; the second marker gives the
    // same in 70 of 100, and any of the four with equal chance in the rest.
    let found = rate(9, |dice| {
        let pairs: Vec<(f64, f64)> = (0..200)
            .map(|_| {
                let first = f64::from(dice.within(0..4));
                let other = f64::from(dice.within(0..4));
                (first, if dice.chance(0.7) { first } else { other })
            })
            .collect();
        let kappa = weighted_kappa(&pairs, linear).expect("marks differ");
        holds(kappa.interval95(), 0.7)
    });
    assert!((found - 0.95).abs() < bound() + 0.01, "{found}");
}

/// Cells of sizes 1 to 9 whose levels scatter by 3 and results by 1: the mean
/// of many between-cell variances is 9. Were the typical size taken as the
/// mean size, it would be 7.9; the standard error of the mean is 0.07.
#[test]
fn scatter_between_unequal_cells_is_not_biased() {
    let mut dice = Dice::new(14);
    let mut sum = 0.0;
    for _ in 0..TRIALS {
        let cells: Vec<Vec<f64>> = [1, 2, 9, 3, 9, 1, 2]
            .into_iter()
            .map(|n: usize| {
                let level = 3.0 * dice.normal();
                (0..n).map(|_| level + dice.normal()).collect()
            })
            .collect();
        sum += precision(&cells).expect("seven cells").between_sd.powi(2);
    }
    let found = sum / f64::from(TRIALS);
    assert!((found - 9.0).abs() < 0.28, "{found}");
}

/// Newcombe's interval is approximate; in his own tables it holds 95 % on the
/// average of many cases and a little less or more in each.
#[test]
fn a_change_of_proportion_is_held_in_about_95_of_100() {
    let found = rate(15, |dice| {
        let count = |dice: &mut Dice, n: usize, p: f64| (0..n).filter(|_| dice.chance(p)).count();
        let (before, after) = ((count(dice, 24, 0.5), 24), (count(dice, 30, 0.2), 30));
        holds(newcombe95(before, after), -0.3)
    });
    assert!((found - 0.95).abs() < 0.015, "{found}");
}

/// Of eleven values from a lopsided distribution (exponential, median ln 2):
/// between the second and the tenth in 1 − 2 × 12/2¹¹ = 98.8 of 100.
#[test]
fn a_median_is_held_as_often_as_coins_say() {
    let found = rate(16, |dice| {
        let values: Vec<f64> = (0..11).map(|_| -(1.0 - dice.share()).ln()).collect();
        holds(median_interval95(&values), std::f64::consts::LN_2)
    });
    assert!((found - 0.988).abs() < bound() / 2.0, "{found}");
}
