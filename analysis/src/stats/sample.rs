//! How much a sample of a given size can tell.

use super::interval::student_t_quantile;

/// Half the width of the 95 % interval for a mean difference.
///
/// t √(s²/n), with Student's t on n − 1 degrees of freedom: what a sample of
/// `n` would leave open if the differences scatter with a standard deviation
/// `sd`, in the unit of `sd`. Formula: any text on Student's t.
///
/// `None` for fewer than two, and for an `sd` that is below 0 or not finite.
#[must_use]
pub fn half_width95(sd: f64, n: usize) -> Option<f64> {
    if !(sd >= 0.0 && sd.is_finite()) {
        return None;
    }
    let t = student_t_quantile(0.975, n.checked_sub(1)?)?;
    Some(t * sd / (n as f64).sqrt())
}
