//! Grubbs' test: is the value farthest from the mean too far?
//!
//! Grubbs (1950), *Annals of Mathematical Statistics* 21, 27-58; formulas as
//! in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1.

use crate::stats::interval::student_t_quantile;
use crate::stats::spread::{is_no_spread, mean, sample_sd};

/// The distance of the farthest value from the mean, in sample standard
/// deviations. `None` for fewer than three values and where all agree.
#[must_use]
pub fn grubbs_statistic(values: &[f64]) -> Option<f64> {
    let (mean, sd) = (mean(values)?, sample_sd(values)?);
    if values.len() < 3 || is_no_spread(sd, values) {
        return None;
    }
    let farthest = values.iter().map(|x| (x - mean).abs()).fold(0.0, f64::max);
    Some(farthest / sd)
}

/// The critical value for a test that looks to one side only.
///
/// What the distance of the largest (or of the smallest) of `n` normal values
/// from their mean exceeds with a probability `alpha`, in sample standard
/// deviations. `None` for `n` below 3 and `alpha` outside 0 to 1.
#[must_use]
pub fn grubbs_critical_one_sided(n: usize, alpha: f64) -> Option<f64> {
    critical(n, alpha / n as f64)
}

/// The critical value for a test that looks to both sides.
///
/// What the distance of the farthest of `n` normal values from their mean
/// exceeds with a probability `alpha`, in sample standard deviations,
/// whichever side it lies on. `None` for `n` below 3 and `alpha` outside 0
/// to 1.
#[must_use]
pub fn grubbs_critical_two_sided(n: usize, alpha: f64) -> Option<f64> {
    critical(n, alpha / (2.0 * n as f64))
}

/// ((n − 1)/√n) √(t²/(n − 2 + t²)), with `tail` the probability beyond t.
fn critical(n: usize, tail: f64) -> Option<f64> {
    let df = n.checked_sub(2)?;
    // The small tail is asked for, not its complement, which would round.
    let t_squared = student_t_quantile(tail, df)?.powi(2);
    let n = n as f64;
    Some((n - 1.0) / n.sqrt() * (t_squared / (n - 2.0 + t_squared)).sqrt())
}
