//! How far an estimate may be from the truth.

use statrs::distribution::{ContinuousCDF, FisherSnedecor, Normal, StudentsT};

use crate::interval::Interval;

/// A number estimated from scattered data.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// The estimate itself, in the unit of the data.
    pub value: f64,
    /// Its standard error, in the same unit. Zero where `df` is zero: then
    /// the data leave nothing over to judge the scatter by.
    pub se: f64,
    /// Degrees of freedom that the standard error rests on.
    pub df: usize,
}

impl Estimate {
    /// The 95 % confidence interval: the value, give or take Student's t
    /// times its standard error. `None` where no degree of freedom is left.
    #[must_use]
    pub fn interval95(&self) -> Option<Interval> {
        let reach = student_t_quantile(0.975, self.df)? * self.se;
        Some(Interval::new(self.value - reach, self.value + reach))
    }
}

/// The number that Student's t on `df` degrees of freedom stays below with a
/// probability `p`. `None` for `df` 0 and for `p` outside 0 to 1 (both
/// excluded).
#[must_use]
pub fn student_t_quantile(p: f64, df: usize) -> Option<f64> {
    if !(p > 0.0 && p < 1.0) {
        return None;
    }
    let student = StudentsT::new(0.0, 1.0, df as f64).ok()?;
    Some(student.inverse_cdf(p))
}

/// The probability that Student's t on `df` degrees of freedom lies at least
/// as far from zero as `t`, on either side. `None` for `df` 0 and for NaN.
#[must_use]
pub fn student_t_two_sided_p(t: f64, df: usize) -> Option<f64> {
    if t.is_nan() {
        return None;
    }
    let student = StudentsT::new(0.0, 1.0, df as f64).ok()?;
    Some(2.0 * student.cdf(-t.abs()))
}

/// The number that the variance ratio F stays below with a probability `p`.
///
/// `above` and `below` are the degrees of freedom of the variances above and
/// below the line; they may be fractions. `None` for fewer than one of either
/// (the quantile is then of no use) and for `p` outside 0 to 1 (both
/// excluded). Good to six figures for `p` near 1.
#[must_use]
pub fn f_quantile(p: f64, above: f64, below: f64) -> Option<f64> {
    if !(p > 0.0 && p < 1.0 && above >= 1.0 && below >= 1.0) {
        return None;
    }
    let quantile = FisherSnedecor::new(above, below).ok()?.inverse_cdf(p);
    quantile.is_finite().then_some(quantile)
}

/// Wilson's score interval, at 95 %, for a proportion of which `successes` in
/// `trials` were seen.
///
/// (2np + z² ∓ z √(z² + 4np(1 − p)))/(2(n + z²)). It stays between 0 and 1
/// and is sound for few trials. Newcombe (1998), *Statistics in Medicine* 17,
/// 857-872, method 3.
///
/// `None` for no trials, or more successes than trials.
#[must_use]
pub fn wilson95(successes: usize, trials: usize) -> Option<Interval> {
    if trials == 0 || successes > trials {
        return None;
    }
    let z = Normal::standard().inverse_cdf(0.975);
    let (r, n) = (successes as f64, trials as f64);
    let middle = 2.0 * r + z * z;
    let reach = z * (z * z + 4.0 * r * (1.0 - r / n)).sqrt();
    let whole = 2.0 * (n + z * z);
    // At no success and at nothing but successes the formula gives 0 and 1
    // but for rounding, which must not leave the range of a proportion.
    Some(Interval::new(
        ((middle - reach) / whole).max(0.0),
        ((middle + reach) / whole).min(1.0),
    ))
}

/// The 95 % interval for how much a proportion changed between two
/// independent samples, each given as (successes, trials): after − before.
///
/// Newcombe's square-and-add of the two Wilson intervals. With proportions p
/// and Wilson limits l, u, from p₂ − p₁ − √((p₂ − l₂)² + (u₁ − p₁)²) to
/// p₂ − p₁ + √((u₂ − p₂)² + (p₁ − l₁)²). It stays between −1 and 1. Newcombe
/// (1998), *Statistics in Medicine* 17, 873-890, method 10.
///
/// The samples must be of different groups, or be treated as such: the same
/// groups asked twice are paired, and then the interval is, as a rule, too
/// wide. `None` where either has no trials, or more successes than trials.
#[must_use]
pub fn newcombe95(before: (usize, usize), after: (usize, usize)) -> Option<Interval> {
    let (wilson_before, wilson_after) =
        (wilson95(before.0, before.1)?, wilson95(after.0, after.1)?);
    let share = |(successes, trials): (usize, usize)| successes as f64 / trials as f64;
    let (p1, p2) = (share(before), share(after));
    let down = (p2 - wilson_after.low).hypot(wilson_before.high - p1);
    let up = (wilson_after.high - p2).hypot(p1 - wilson_before.low);
    Some(Interval::new(
        (p2 - p1 - down).max(-1.0),
        (p2 - p1 + up).min(1.0),
    ))
}
