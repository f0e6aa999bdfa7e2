//! Cochran's test: is the largest variance too large?
//!
//! Cochran (1941), *Annals of Eugenics* 11, 47-52; ISO 5725-2:1994, 7.3.3.
//! Critical values: 't Lam (2010), *Analytica Chimica Acta* 659, 68-84.

use crate::stats::interval::f_quantile;

/// Cochran's C: the largest variance over the sum of all, from 1/p to 1, of
/// the standard deviations of `p` cells of equal sizes.
///
/// `None` for fewer than two, where all are 0, and where one is below 0 or
/// not finite.
#[must_use]
pub fn cochran_statistic(sds: &[f64]) -> Option<f64> {
    let largest = sds.iter().copied().fold(0.0, f64::max);
    let is_sd = |sd: &f64| *sd >= 0.0 && sd.is_finite();
    if sds.len() < 2 || largest <= 0.0 || !sds.iter().all(is_sd) {
        return None;
    }
    // As shares of the largest, so that no square runs out of range.
    Some(1.0 / sds.iter().map(|sd| (sd / largest).powi(2)).sum::<f64>())
}

/// What C of `p` cells of `n` results each exceeds with a probability of
/// `alpha` at most, if all are alike.
///
/// 1/(1 + (p − 1)/F), with the F beyond which lies alpha/p on n − 1 and
/// (p − 1)(n − 1) degrees of freedom.
///
/// `None` for `p` or `n` below 2 and `alpha` outside 0 to 1 (both excluded).
#[must_use]
pub fn cochran_critical(p: usize, n: usize, alpha: f64) -> Option<f64> {
    let others = p.checked_sub(1)? as f64;
    let df = n.checked_sub(1)? as f64;
    let f = f_quantile(1.0 - alpha / p as f64, df, others * df)?;
    Some(1.0 / (1.0 + others / f))
}
