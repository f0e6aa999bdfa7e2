//! Mandel's statistics of consistency between cells (h) and within (k).
//!
//! ISO 5725-2:1994, 7.3.1; ASTM E691. Critical values: Wilrich (2013), `AStA`
//! Advances in Statistical Analysis 97, 1-10.

use super::cell_means;
use crate::stats::interval::{f_quantile, student_t_quantile};
use crate::stats::spread::{is_no_spread, mean, pooled_sd, sample_sd};

/// Mandel's h of each cell: how far its mean lies from the mean of all cells'
/// means, in standard deviations of those means. No unit; |h| is at most
/// (p − 1)/√p.
///
/// Each cell counts the same, whatever its size; the critical values suppose
/// sizes that are about equal. `None` for fewer than three cells, for one
/// without results, where all means agree, and where a result is not finite.
#[must_use]
pub fn mandel_h(cells: &[Vec<f64>]) -> Option<Vec<f64>> {
    let means = cell_means(cells)?;
    let (middle, sd) = (mean(&means)?, sample_sd(&means)?);
    if means.len() < 3 || is_no_spread(sd, &means) {
        return None;
    }
    Some(means.iter().map(|mean| (mean - middle) / sd).collect())
}

/// Mandel's k of each cell: its standard deviation over the repeatability
/// standard deviation. No unit, 0 or above.
///
/// The repeatability is pooled over all cells by their degrees of freedom,
/// which for equal cells is the root mean square of the standards. `None` in
/// the list for a cell of one result. `None` altogether for fewer than two
/// cells, for one without results, where no cell scatters, and where a result
/// is not finite.
#[must_use]
pub fn mandel_k(cells: &[Vec<f64>]) -> Option<Vec<Option<f64>>> {
    cell_means(cells)?;
    let slices: Vec<&[f64]> = cells.iter().map(Vec::as_slice).collect();
    let repeatability_sd = pooled_sd(&slices)?;
    if is_no_spread(repeatability_sd, &cells.concat()) {
        return None;
    }
    let k = |cell: &Vec<f64>| Some(sample_sd(cell)? / repeatability_sd);
    Some(cells.iter().map(k).collect())
}

/// What the |h| of one of `p` cells exceeds with a probability `alpha`, if
/// all are alike.
///
/// (p − 1)t/√(p(t² + p − 2)), with Student's t beyond which lies alpha/2 on
/// p − 2 degrees of freedom. It is a bound for each cell, not for the largest of them. `None` for `p`
/// below 3 and `alpha` outside 0 to 1 (both excluded).
#[must_use]
pub fn mandel_h_critical(p: usize, alpha: f64) -> Option<f64> {
    let df = p.checked_sub(2)?;
    // The small tail is asked for, not its complement, which would round.
    let t_squared = student_t_quantile(alpha / 2.0, df)?.powi(2);
    let cells = p as f64;
    Some((cells - 1.0) * (t_squared / (cells * (t_squared + cells - 2.0))).sqrt())
}

/// What the k of one of `p` cells of `n` results each exceeds with a
/// probability `alpha`, if all are alike.
///
/// √(p/(1 + (p − 1)/F)), with the F beyond which lies alpha on n − 1 and
/// (p − 1)(n − 1) degrees of freedom. It is a bound for each cell, not for the largest of them. `None` for `p`
/// or `n` below 2 and `alpha` outside 0 to 1 (both excluded).
#[must_use]
pub fn mandel_k_critical(p: usize, n: usize, alpha: f64) -> Option<f64> {
    let df = n.checked_sub(1)?;
    mandel_k_critical_unequal(df, p.checked_mul(df)?, alpha)
}

/// As [`mandel_k_critical`], for a cell of `df` degrees of freedom (results
/// less one) where all cells have `total_df` together.
///
/// With shares of the squares df F and ν = `total_df` − `df` of the others,
/// k² = (`total_df`/df)/(1 + ν/(df F)): the same derivation as for equal
/// cells, which nowhere needs their sizes to be equal. `None` for `df` 0,
/// where no other cell has any, and for `alpha` outside 0 to 1.
#[must_use]
pub fn mandel_k_critical_unequal(df: usize, total_df: usize, alpha: f64) -> Option<f64> {
    let others = total_df.checked_sub(df)? as f64;
    let (own, total) = (df as f64, total_df as f64);
    let f = f_quantile(1.0 - alpha, own, others)?;
    Some((total / own / (1.0 + others / (own * f))).sqrt())
}
