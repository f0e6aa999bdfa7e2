//! Differences of pairs and their limits of agreement.
//!
//! Bland and Altman (1986), *Lancet* 327 (8476), 307-310.

use crate::stats::interval::Estimate;
use crate::stats::spread::{mean_estimate, sample_sd};

/// Standard deviations either side of the mean that hold 95 % of normal
/// differences.
const SDS_FOR_95: f64 = 1.96;

/// The differences of many pairs, second − first, in the unit of the figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Differences {
    /// Their number.
    pub n: usize,
    /// Their mean, with its standard error: between markers, by how much the
    /// second is the milder. Near 0 too where large differences cancel.
    pub mean: Estimate,
    /// Their sample standard deviation.
    pub sd: f64,
}

/// Where about 95 % of the differences between two markers lie, if they are
/// normal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LimitsOfAgreement {
    /// The lower limit, with its standard error.
    pub lower: Estimate,
    /// The upper limit, with its standard error.
    pub upper: Estimate,
}

/// The differences of pairs (first, second). `None` for fewer than two pairs
/// and where a figure is not finite.
#[must_use]
pub fn differences(pairs: &[(f64, f64)]) -> Option<Differences> {
    let each: Vec<f64> = pairs.iter().map(|(first, second)| second - first).collect();
    let (mean_difference, sd) = (mean_estimate(&each)?, sample_sd(&each)?);
    if !(mean_difference.value.is_finite() && sd.is_finite()) {
        return None;
    }
    Some(Differences {
        n: pairs.len(),
        mean: mean_difference,
        sd,
    })
}

impl Differences {
    /// Bland and Altman's limits of agreement, mean ± 1.96 SD.
    #[must_use]
    pub fn limits_of_agreement(&self) -> LimitsOfAgreement {
        self.limits_at(SDS_FOR_95)
    }

    /// The limits at another number of standard deviations either side. The
    /// worked example of 1986 takes 2.
    ///
    /// Their standard error is √(3 s²/n), as the paper approximates it, on
    /// n − 1 degrees of freedom. The exact factor is 1 + 1.96²/2, or 2.92.
    #[must_use]
    pub fn limits_at(&self, sds: f64) -> LimitsOfAgreement {
        let limit = |value: f64| Estimate {
            value,
            se: (3.0 * self.sd.powi(2) / self.n as f64).sqrt(),
            df: self.mean.df,
        };
        LimitsOfAgreement {
            lower: limit(self.mean.value - sds * self.sd),
            upper: limit(self.mean.value + sds * self.sd),
        }
    }
}

/// How many pairs differ by `tolerance` or less; with 0, how many agree
/// exactly.
///
/// Divided by the number of pairs, the percentage agreement, whose
/// interval is [`wilson95`](crate::stats::interval::wilson95)'s.
///
/// A share of 1e-9 above the tolerance is let pass: 0.3 − 0.2 is not 0.1 in
/// binary. None is within a tolerance below 0 or NaN.
#[must_use]
pub fn count_within(pairs: &[(f64, f64)], tolerance: f64) -> usize {
    let reach = tolerance * (1.0 + 1e-9);
    let is_within = |(first, second): &&(f64, f64)| (second - first).abs() <= reach;
    pairs.iter().filter(is_within).count()
}
