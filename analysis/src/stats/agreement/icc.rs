//! The intraclass correlation: how much of the scatter of marks is the sheets'.
//!
//! Shrout and Fleiss (1979), *Psychological Bulletin* 86, 420-428: ICC(1,1),
//! from a one-way analysis of variance. Each sheet was marked by other markers.

use crate::interval::Interval;
use crate::stats::interval::f_quantile;
use crate::stats::spread::mean;

/// One intraclass correlation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coefficient {
    /// The estimate: 1 where all scatter is the sheets', 0 or below where
    /// none is. At most 1.
    pub value: f64,
    /// Its F-based 95 % interval.
    pub interval95: Option<Interval>,
}

/// The intraclass correlation of a single mark, from a table with a row for
/// each sheet and a column for each marker.
///
/// (B − W)/(B + (k − 1)W), with the mean squares between and within rows of k
/// marks. A marker who is severe throughout lowers it.
///
/// `None` for fewer than two rows or two columns, for rows of different
/// lengths (a gap), where all figures are the same, and where one is not
/// finite.
#[must_use]
pub fn intraclass_correlation(table: &[Vec<f64>]) -> Option<Coefficient> {
    let markers = table.first()?.len();
    let is_whole = table.len() >= 2 && markers >= 2 && table.iter().all(|row| row.len() == markers);
    if !is_whole || !varies(&table.concat()) {
        return None;
    }
    let (n, k) = (table.len() as f64, markers as f64);
    let grand = mean(&table.concat())?;
    let (mut between, mut within) = (0.0, 0.0);
    for row in table {
        let row_mean = mean(row)?;
        between += k * (row_mean - grand).powi(2);
        within += row.iter().map(|x| (x - row_mean).powi(2)).sum::<f64>();
    }
    let (between_df, within_df) = (n - 1.0, n * (k - 1.0));
    let (between, within) = (between / between_df, within / within_df);
    if !(between.is_finite() && within.is_finite()) {
        return None;
    }
    // Never divides by nothing: figures vary, so one of the two is above 0.
    let coefficient = |b: f64, w: f64| (b - w) / (b + (k - 1.0) * w);
    let ends = || {
        let low = coefficient(between, within * f_quantile(0.975, between_df, within_df)?);
        let high = coefficient(between * f_quantile(0.975, within_df, between_df)?, within);
        Some(Interval::new(low, high))
    };
    Some(Coefficient {
        value: coefficient(between, within),
        interval95: ends(),
    })
}

/// Asked of the figures themselves: about their mean, rounding can make equal
/// figures differ. False too where a figure is not finite.
fn varies(figures: &[f64]) -> bool {
    let differs = |pair: &[f64]| (pair[0] - pair[1]).abs() > 0.0;
    figures.iter().all(|x| x.is_finite()) && figures.windows(2).any(differs)
}
