//! Means, squares and products of pairs, from which correlations and axes
//! are made.

use crate::stats::spread::{is_no_spread, mean};

/// Sums over pairs (x, y), about their means.
pub(super) struct Moments {
    /// How many pairs.
    pub(super) n: usize,
    pub(super) x_mean: f64,
    pub(super) y_mean: f64,
    /// Sum of squares of x. Exactly 0 where x does not vary.
    pub(super) sxx: f64,
    /// Sum of squares of y. Exactly 0 where y does not vary.
    pub(super) syy: f64,
    /// Sum of products.
    pub(super) sxy: f64,
}

/// `None` for no pairs and where a figure is not finite.
pub(super) fn moments(pairs: &[(f64, f64)]) -> Option<Moments> {
    let xs: Vec<f64> = pairs.iter().map(|(x, _)| *x).collect();
    let ys: Vec<f64> = pairs.iter().map(|(_, y)| *y).collect();
    let (x_mean, y_mean) = (mean(&xs)?, mean(&ys)?);
    let products = pairs.iter().map(|(x, y)| (x - x_mean) * (y - y_mean));
    let found = Moments {
        n: pairs.len(),
        x_mean,
        y_mean,
        sxx: squares(&xs, x_mean),
        syy: squares(&ys, y_mean),
        sxy: products.sum(),
    };
    (found.sxx.is_finite() && found.syy.is_finite() && found.sxy.is_finite()).then_some(found)
}

/// About the mean. What is left of figures that agree is rounding, and is
/// taken for nothing.
fn squares(values: &[f64], mean: f64) -> f64 {
    let sum: f64 = values.iter().map(|x| (x - mean).powi(2)).sum();
    if is_no_spread((sum / values.len() as f64).sqrt(), values) {
        0.0
    } else {
        sum
    }
}
