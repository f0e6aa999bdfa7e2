//! The two-way analysis of variance that the correlations are made of.

use crate::stats::spread::mean;

/// The mean squares of a table with a row for each sheet and a column for
/// each marker.
pub(super) struct MeanSquares {
    /// How many rows.
    pub(super) n: f64,
    /// How many columns.
    pub(super) k: f64,
    /// Between rows (BMS).
    pub(super) sheets: f64,
    /// Between columns (JMS).
    pub(super) markers: f64,
    /// Within rows (WMS).
    pub(super) within: f64,
    /// What neither row nor column explains (EMS).
    pub(super) residual: f64,
}

/// `None` for fewer than two rows or columns, for a gap, where all figures
/// are the same, and where one is not finite.
pub(super) fn mean_squares(table: &[Vec<f64>]) -> Option<MeanSquares> {
    let markers = table.first()?.len();
    let is_whole = table.len() >= 2 && markers >= 2 && table.iter().all(|row| row.len() == markers);
    if !is_whole || !varies(&table.concat()) {
        return None;
    }
    let (n, k) = (table.len() as f64, markers as f64);
    let grand = mean(&table.concat())?;
    let row_means = means(table)?;
    let column_means = means(&columns(table, markers))?;
    let (mut within, mut residual) = (0.0, 0.0);
    for (row, row_mean) in table.iter().zip(&row_means) {
        for (x, column_mean) in row.iter().zip(&column_means) {
            within += (x - row_mean).powi(2);
            residual += (x - row_mean - column_mean + grand).powi(2);
        }
    }
    let about_grand = |means: &[f64]| means.iter().map(|m| (m - grand).powi(2)).sum::<f64>();
    let squares = MeanSquares {
        n,
        k,
        sheets: k * about_grand(&row_means) / (n - 1.0),
        markers: n * about_grand(&column_means) / (k - 1.0),
        within: within / (n * (k - 1.0)),
        residual: residual / ((n - 1.0) * (k - 1.0)),
    };
    squares.largest().is_finite().then_some(squares)
}

impl MeanSquares {
    /// What the others may be nothing beside.
    pub(super) fn largest(&self) -> f64 {
        let all = [self.sheets, self.markers, self.within, self.residual];
        all.into_iter().fold(0.0, f64::max)
    }
}

/// Asked of the figures themselves: about their mean, rounding can make equal
/// figures differ. False too where a figure is not finite.
fn varies(figures: &[f64]) -> bool {
    let differs = |pair: &[f64]| (pair[0] - pair[1]).abs() > 0.0;
    figures.iter().all(|x| x.is_finite()) && figures.windows(2).any(differs)
}

fn columns(table: &[Vec<f64>], markers: usize) -> Vec<Vec<f64>> {
    let column = |j: usize| table.iter().map(|row| row[j]).collect();
    (0..markers).map(column).collect()
}

fn means(rows: &[Vec<f64>]) -> Option<Vec<f64>> {
    rows.iter().map(|row| mean(row)).collect()
}
