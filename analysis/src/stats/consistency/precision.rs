//! Repeatability and reproducibility.
//!
//! ISO 5725-2:1994, 7.4, for cells of any sizes. For equal cells these are
//! the figures of ASTM E691.

use super::cell_means;
use crate::stats::spread::{mean, pooled_sd};

/// From a standard deviation to the difference that two results exceed in 5 %
/// of cases: 1.96 √2, as the standards round it.
const DIFFERENCE_OF_TWO: f64 = 2.8;

/// The precision of one measurement, in the unit of the results.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Precision {
    /// Cells, p.
    pub cells: usize,
    /// Results in all cells.
    pub results: usize,
    /// The general mean: of all results, each counting the same.
    pub mean: f64,
    /// Repeatability standard deviation, `s_r`: pooled within cells.
    pub repeatability_sd: f64,
    /// Between-laboratory standard deviation, `s_L`. 0 where the cells' means
    /// scatter no more than `s_r` explains.
    pub between_sd: f64,
    /// Reproducibility standard deviation, `s_R`, √(`s_r`² + `s_L`²): of single
    /// results from different cells. Never below `s_r`.
    pub reproducibility_sd: f64,
}

impl Precision {
    /// The repeatability limit, 2.8 times `s_r`: two results of one cell differ
    /// by less, 19 times in 20.
    #[must_use]
    pub fn repeatability_limit(&self) -> f64 {
        DIFFERENCE_OF_TWO * self.repeatability_sd
    }

    /// The reproducibility limit, 2.8 times `s_R`: two results of different cells
    /// differ by less, 19 times in 20.
    #[must_use]
    pub fn reproducibility_limit(&self) -> f64 {
        DIFFERENCE_OF_TWO * self.reproducibility_sd
    }
}

/// The precision that cells of results show.
///
/// `s_L² = (s_d² − s_r²)/n̿`, at least 0, with the mean square between cells
/// `s_d² = Σ n_i (ȳ_i − m)²/(p − 1)` about the general mean m, and the typical
/// size `n̿ = (N − Σ n_i²/N)/(p − 1)`.
///
/// `None` for fewer than two cells, where a cell has no results or none has
/// two, and where a result is not finite. A cell of one result counts towards
/// `s_L` alone.
#[must_use]
pub fn precision(cells: &[Vec<f64>]) -> Option<Precision> {
    let means = cell_means(cells)?;
    let all = cells.concat();
    let general = mean(&all)?;
    let slices: Vec<&[f64]> = cells.iter().map(Vec::as_slice).collect();
    let repeatability_sd = pooled_sd(&slices)?;
    let results = all.len() as f64;
    let freedom = (cells.len() - 1) as f64;
    let sizes = cells.iter().map(|cell| cell.len() as f64);
    let between: f64 = sizes
        .clone()
        .zip(&means)
        .map(|(size, mean)| size * (mean - general).powi(2))
        .sum();
    let typical_size = (results - sizes.map(|size| size * size).sum::<f64>() / results) / freedom;
    let between_variance = (between / freedom - repeatability_sd.powi(2)) / typical_size;
    let between_sd = between_variance.max(0.0).sqrt();
    Some(Precision {
        cells: cells.len(),
        results: all.len(),
        mean: general,
        repeatability_sd,
        between_sd,
        reproducibility_sd: repeatability_sd.hypot(between_sd),
    })
}
