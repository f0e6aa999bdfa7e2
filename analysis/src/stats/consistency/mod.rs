//! One measurement made by many: an inter-laboratory study.
//!
//! What the standards call a laboratory is whoever worked under conditions of
//! its own (a class, a group, a kit); its results of one thing are a cell.
//!
//! - [`precision()`]: the scatter within cells and between them.
//! - [`mandel_h`], [`mandel_k`]: whose level is out, whose scatter is.
//! - [`cochran_statistic`]: whether the largest scatter is too large. Its
//!   fellow for the level is Grubbs' test, in [`outlier`](super::outlier).
//!
//! Critical values are worked out at any level. ISO 5725-2 calls a cell
//! beyond that of 5 % a straggler and beyond that of 1 % an outlier; ASTM
//! E691 draws its line for h and k at 0.5 %.

mod cochran;
mod mandel;
mod precision;

pub use cochran::{cochran_critical, cochran_statistic};
pub use mandel::{
    mandel_h, mandel_h_critical, mandel_k, mandel_k_critical, mandel_k_critical_unequal,
};
pub use precision::{Precision, precision};

use crate::stats::spread::mean;

/// The mean of each cell. `None` for fewer than two cells, for one without
/// results, and where a result is not finite.
fn cell_means(cells: &[Vec<f64>]) -> Option<Vec<f64>> {
    if cells.len() < 2 || cells.iter().flatten().any(|x| !x.is_finite()) {
        return None;
    }
    cells.iter().map(|cell| mean(cell)).collect()
}
