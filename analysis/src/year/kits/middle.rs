//! The middle of a few values and of many, such that wild ones hardly move it.

use std::f64::consts::FRAC_PI_2;

use crate::stats::robust::algorithm_a;
use crate::stats::spread;

/// Sheets from which on a kit's middle is Algorithm A's mean. Our choice: of
/// fewer, a slip or two are a quarter, which carries that mean away.
pub const FEWEST_FOR_MEAN: usize = 12;

/// 1.25, as ISO 13528 widens the standard error of Algorithm A's mean.
const WIDENED_BY: f64 = 1.25;

/// The middle of some values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Middle {
    /// Where it is.
    pub(super) at: f64,
    /// Their own standard deviation, robust.
    pub(super) sd: f64,
    n: usize,
    widened_by: f64,
}

impl Middle {
    /// The robust mean (Algorithm A) of [`FEWEST_FOR_MEAN`] values or more;
    /// of fewer, and where it does not settle, the median with 1.4826 MAD.
    /// `None` for fewer than two.
    pub(super) fn of(values: &[f64]) -> Option<Self> {
        let n = values.len();
        let mean = (n >= FEWEST_FOR_MEAN).then(|| algorithm_a(values));
        match mean.flatten() {
            Some(robust) => Some(Self {
                at: robust.mean,
                sd: robust.sd,
                n,
                widened_by: WIDENED_BY,
            }),
            None if n > 1 => Some(Self {
                at: spread::median(values)?,
                sd: spread::robust_sd(values)?,
                n,
                widened_by: median_widened_by(n),
            }),
            None => None,
        }
    }

    /// Its standard error where single values scatter by `sd`.
    pub(super) fn standard_error(&self, sd: f64) -> f64 {
        self.widened_by * sd / (self.n as f64).sqrt()
    }
}

/// How much wider the median of so many normal values scatters than their
/// mean: √(π/2), which is the limit for many; of two it is their mean.
pub(super) fn median_widened_by(n: usize) -> f64 {
    if n > 2 { FRAC_PI_2.sqrt() } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two of eight count from one: a quarter, which Algorithm A follows.
    #[test]
    fn two_wild_of_eight_do_not_move_the_middle_of_few() {
        let values = [-0.02, -0.01, -0.005, 0.005, 0.01, 0.02, -0.2, -0.22];
        let middle = Middle::of(&values).expect("a middle");
        assert!((middle.at - -0.0075).abs() < 1e-12, "{middle:?}");
        assert!(middle.sd < 0.03, "{middle:?}");
        let wanted = 0.03 * FRAC_PI_2.sqrt() / 8.0_f64.sqrt();
        assert!((middle.standard_error(0.03) - wanted).abs() < 1e-12);
    }

    #[test]
    fn one_value_has_no_middle_to_judge_by() {
        assert_eq!(Middle::of(&[0.1]), None);
    }
}
