//! How closely a sample of some size fixes a marker's severity.

use crate::stats::interval::Estimate;

/// How far the mean difference of `n` sheets may be from the truth, at 95 %:
/// Student's t on n − 1 degrees of freedom times `sd`/√n, in the unit of `sd`.
///
/// `None` for fewer than two sheets.
///
/// # Example
/// Differences between two markers that scatter by 2 marks:
/// ```
/// use analysis::moderation::width::reach95;
///
/// assert!((reach95(6, 2.0).unwrap() - 2.1).abs() < 0.01);
/// ```
#[must_use]
pub fn reach95(n: usize, sd: f64) -> Option<f64> {
    let of_mean = Estimate {
        value: 0.0,
        se: sd / (n as f64).sqrt(),
        df: n.checked_sub(1)?,
    };
    Some(of_mean.interval95()?.high)
}
