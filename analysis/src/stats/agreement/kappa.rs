//! Agreement beyond chance on a scale of a few levels.
//!
//! Cohen (1968), *Psychological Bulletin* 70, 213-220; standard error of
//! Fleiss, Cohen and Everitt (1969), *Psychological Bulletin* 72, 323-327.

use crate::interval::Interval;

/// A weighted kappa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kappa {
    /// The coefficient: 1 for full agreement, 0 for what chance would give
    /// two markers who use each mark as often as these do, below 0 for less.
    pub value: f64,
    /// Its large-sample standard error. Rough for a few pairs; 0 where all
    /// agree, and then it means nothing.
    pub se: f64,
}

impl Kappa {
    /// The large-sample 95 % interval: value ± 1.96 standard errors, never
    /// beyond 1. `None` where the standard error is 0, to within rounding.
    #[must_use]
    pub fn interval95(&self) -> Option<Interval> {
        let reach = 1.96 * self.se;
        (reach > 1e-12).then(|| Interval::new(self.value - reach, (self.value + reach).min(1.0)))
    }
}

/// A disagreement weighs as much as the marks are apart.
#[must_use]
pub fn linear(first: f64, second: f64) -> f64 {
    (first - second).abs()
}

/// Cohen's weighted kappa of pairs (first, second), by how much a
/// `disagreement` weighs: [`linear`], or weights of one's own, none below 0.
/// Only their ratios matter.
///
/// 1 − q/q′, where q is the mean weight of the pairs, and q′ that of all
/// firsts set against all seconds.
///
/// `None` for no pairs, where a mark or a weight is not finite, and where
/// chance leaves nothing to disagree on (q′ is 0): both markers gave one and
/// the same mark throughout.
#[must_use]
pub fn weighted_kappa(pairs: &[(f64, f64)], disagreement: fn(f64, f64) -> f64) -> Option<Kappa> {
    if pairs.iter().any(|(x, y)| !(x.is_finite() && y.is_finite())) {
        return None;
    }
    let n = pairs.len() as f64;
    let firsts = shares(pairs.iter().map(|(first, _)| *first).collect());
    let seconds = shares(pairs.iter().map(|(_, second)| *second).collect());
    // What each pair weighs, and what its two marks weigh, on average,
    // against those that the other marker gave.
    let mut weights = Vec::with_capacity(pairs.len());
    for (first, second) in pairs {
        let against_seconds: f64 = seconds
            .iter()
            .map(|(y, p)| p * disagreement(*first, *y))
            .sum();
        let against_firsts: f64 = firsts
            .iter()
            .map(|(x, p)| p * disagreement(*x, *second))
            .sum();
        weights.push((
            disagreement(*first, *second),
            against_seconds,
            against_firsts,
        ));
    }
    let observed = weights.iter().map(|(pair, _, _)| pair).sum::<f64>() / n;
    let expected = weights.iter().map(|(_, against, _)| against).sum::<f64>() / n;
    if !(expected > 0.0 && expected.is_finite() && observed.is_finite()) {
        return None;
    }
    let ratio = observed / expected;
    // Fleiss, Cohen and Everitt's variance, written with disagreements: of
    // what each pair weighs less its share of what chance would, whose mean
    // is −observed.
    let squares = weights
        .iter()
        .map(|(pair, first, second)| (pair - ratio * (first + second) + observed).powi(2));
    let variance = squares.sum::<f64>() / n / (n * expected.powi(2));
    Some(Kappa {
        value: 1.0 - ratio,
        se: variance.sqrt(),
    })
}

/// Each mark that was given, with its share of all.
fn shares(mut marks: Vec<f64>) -> Vec<(f64, f64)> {
    marks.sort_by(f64::total_cmp);
    let n = marks.len() as f64;
    marks
        .chunk_by(|a, b| a.total_cmp(b).is_eq())
        .map(|same| (same[0], same.len() as f64 / n))
        .collect()
}
