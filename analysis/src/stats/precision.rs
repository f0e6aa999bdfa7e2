//! One measurement made by many: repeatability and reproducibility.
//!
//! ISO 5725-2:1994, 7.4, for cells of any sizes; for equal cells these are the
//! figures of ASTM E691. What the standards call a laboratory is whoever
//! worked under conditions of its own, here a class; its results are a cell.

use super::spread::{mean, pooled_sd};

/// The precision of one measurement, in the unit of the results.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Precision {
    /// Repeatability standard deviation, `s_r`: pooled within cells.
    pub repeatability_sd: f64,
    /// Between-laboratory standard deviation, `s_L`. 0 where the cells' means
    /// scatter no more than `s_r` explains.
    pub between_sd: f64,
    /// Reproducibility standard deviation, `s_R`, √(`s_r`² + `s_L`²): of single
    /// results from different cells. Never below `s_r`.
    pub reproducibility_sd: f64,
}

/// Works out the precision that cells of results show.
///
/// `s_L² = (s_d² − s_r²)/n̿`, at least 0, with the mean square between cells
/// `s_d² = Σ n_i (ȳ_i − m)²/(p − 1)` about the general mean m, and the typical
/// size `n̿ = (N − Σ n_i²/N)/(p − 1)`.
///
/// Returns `None` for fewer than two cells, where a cell has no results or
/// none has two, and where a result is not finite. A cell of one result counts
/// towards `s_L` alone.
#[must_use]
pub fn precision(cells: &[Vec<f64>]) -> Option<Precision> {
    let all = cells.concat();
    if cells.len() < 2 || all.iter().any(|result| !result.is_finite()) {
        return None;
    }
    let means: Vec<f64> = cells.iter().map(|cell| mean(cell)).collect::<Option<_>>()?;
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
        repeatability_sd,
        between_sd,
        reproducibility_sd: repeatability_sd.hypot(between_sd),
    })
}
