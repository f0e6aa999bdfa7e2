//! How far an estimate may be from the truth.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

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
