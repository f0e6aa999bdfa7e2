//! The generalised extreme studentised deviate test: up to so many outliers
//! at once, none hiding another.
//!
//! Rosner (1983), *Technometrics* 25, 165-172; formulas as in the
//! NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.3.

use super::grubbs::{grubbs_critical_two_sided, grubbs_statistic};
use crate::stats::spread::mean;

/// What the test found, step by step.
#[derive(Clone, Debug, PartialEq)]
pub struct Esd {
    /// R: at each step, the distance of the farthest value left from the mean
    /// of those left, in their standard deviations.
    pub statistics: Vec<f64>,
    /// λ: what each R is to exceed.
    pub critical: Vec<f64>,
    /// The indices of the values taken away, in that order.
    pub removed: Vec<usize>,
    /// How many of `removed` are outliers: up to the last R above its λ.
    pub count: usize,
}

impl Esd {
    /// The indices of the outliers, the farthest first.
    #[must_use]
    pub fn outliers(&self) -> &[usize] {
        &self.removed[..self.count]
    }
}

/// The test for up to `most` outliers, either side, at a significance level
/// `alpha`. It stops early where the values left agree exactly.
///
/// `None` for fewer than `most` + 2 values, for NaN among them, and for an
/// `alpha` outside 0 to 1.
#[must_use]
pub fn generalised_esd(values: &[f64], most: usize, alpha: f64) -> Option<Esd> {
    if values.len() < most + 2 || values.iter().any(|x| x.is_nan()) {
        return None;
    }
    let mut left: Vec<(usize, f64)> = values.iter().copied().enumerate().collect();
    let mut found = Esd {
        statistics: Vec::new(),
        critical: Vec::new(),
        removed: Vec::new(),
        count: 0,
    };
    for _ in 0..most {
        let figures: Vec<f64> = left.iter().map(|(_, x)| *x).collect();
        let Some(statistic) = grubbs_statistic(&figures) else {
            break;
        };
        // λ at each step is Grubbs' critical value for the values left.
        let critical = grubbs_critical_two_sided(figures.len(), alpha)?;
        let (index, _) = left.remove(farthest_from_mean(&figures)?);
        found.removed.push(index);
        found.statistics.push(statistic);
        found.critical.push(critical);
        if statistic > critical {
            found.count = found.removed.len();
        }
    }
    Some(found)
}

/// The position of the value farthest from the mean; the first of equals.
fn farthest_from_mean(values: &[f64]) -> Option<usize> {
    let mean = mean(values)?;
    let distance = |i: &usize| (values[*i] - mean).abs();
    (0..values.len())
        .rev()
        .max_by(|a, b| distance(a).total_cmp(&distance(b)))
}
