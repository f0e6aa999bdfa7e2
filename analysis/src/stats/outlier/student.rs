//! Externally studentised residuals: each value measured against the mean and
//! the scatter of the others, so that a wild one cannot hide behind the
//! scatter that it makes itself.
//!
//! Cook and Weisberg (1982), *Residuals and Influence in Regression*,
//! chapter 2, for a model that has nothing but a level.

use super::FEWEST;
use crate::stats::interval::student_t_two_sided_p;
use crate::stats::spread::{is_no_spread, mean, sample_sd};

/// How far one value lies from the level of the others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Studentised {
    /// The residual about the common mean over its standard error, with the
    /// scatter taken from the other values: Student's t on n − 2 degrees of
    /// freedom where nothing is wrong.
    pub t: f64,
    /// The probability that the most extreme of n clean values lies this far
    /// out, on either side, or a bound on it: n times that of one value
    /// (Bonferroni), 1 at most.
    pub bonferroni_p: f64,
}

/// Each value against the others. Calling those below 0.05 anomalous is wrong
/// in 5 % of clean sets or fewer, whatever their size.
///
/// `None` for fewer than four values, and where all values but one agree
/// exactly: there is no scatter to measure by, and rounding alone could
/// account for the one that differs. Where the readings' own resolution is
/// known, [`studentised_with_floor`] judges those too.
#[must_use]
pub fn studentised(values: &[f64]) -> Option<Vec<Studentised>> {
    studentised_with_floor(values, 0.0)
}

/// As [`studentised`], with the scatter of the others never taken as less
/// than `least_sd` (the unit of the values; the resolution of the readings,
/// say). A floor makes the test more sparing, never less.
#[must_use]
pub fn studentised_with_floor(values: &[f64], least_sd: f64) -> Option<Vec<Studentised>> {
    let n = values.len();
    if n < FEWEST {
        return None;
    }
    let mean = mean(values)?;
    let standard_error_per_sd = (1.0 - 1.0 / n as f64).sqrt();
    (0..n)
        .map(|i| {
            let others = [&values[..i], &values[i + 1..]].concat();
            let sd = sample_sd(&others)?;
            if is_no_spread(sd.max(least_sd), values) {
                return None;
            }
            let t = (values[i] - mean) / (sd.max(least_sd) * standard_error_per_sd);
            let p = student_t_two_sided_p(t, n - 2)?;
            Some(Studentised {
                t,
                bonferroni_p: (n as f64 * p).min(1.0),
            })
        })
        .collect()
}
