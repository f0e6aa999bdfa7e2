//! The straight line of two figures that both carry error.
//!
//! Least squares of second on first puts all the scatter in the second and
//! flattens the line: two equal markers would seem to bunch each other's
//! marks (regression to the mean). With equal error variances in both, the
//! structural line is the major axis, Deming's regression with a ratio of 1.
//! Two markers with one scheme are in that case: neither is the truth, and
//! both read off the same scale. The reduced major axis, the ratio of the two
//! standard deviations, would instead take the errors to grow with the slope,
//! and a marker who bunches does not err less for it.
//!
//! Deming (1943), *Statistical Adjustment of Data*; interval of
//! Creasy (1956), *Journal of the Royal Statistical Society* B 18, 65-69.

use std::f64::consts::FRAC_PI_2;

use super::moments::moments;
use crate::interval::Interval;
use crate::stats::interval::student_t_quantile;

/// The direction along which pairs are spread the most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MajorAxis {
    /// Rise of second over first. Below 1, the second marker spreads the same
    /// sheets less: bunches marks in the middle.
    pub slope: f64,
    /// The 95 % interval of the slope. `None` where the pairs leave it open:
    /// fewer than four, hardly longer than wide, or a vertical line not ruled
    /// out.
    ///
    /// About a slope above 0, it holds 1 exactly where the test of Pitman
    /// (1939) and Morgan (1939) finds no difference between the two spreads at
    /// 5 %.
    pub interval95: Option<Interval>,
}

/// The major axis of pairs (first, second).
///
/// `None` for fewer than three pairs, where no direction stands out (as
/// broad as long), where it is vertical, and where a figure is not finite.
#[must_use]
pub fn major_axis(pairs: &[(f64, f64)]) -> Option<MajorAxis> {
    let m = moments(pairs)?;
    if m.n < 3 {
        return None;
    }
    // Twice the radius of the circle of squares and products under rotation
    // (Mohr's circle): how much longer the cloud is than broad.
    let longer = (m.sxx - m.syy).hypot(2.0 * m.sxy);
    if longer <= 1e-12 * (m.sxx + m.syy) {
        return None;
    }
    let angle = 0.5 * (2.0 * m.sxy).atan2(m.sxx - m.syy);
    if is_vertical(angle) {
        return None;
    }
    Some(MajorAxis {
        slope: angle.tan(),
        interval95: interval95(m.n, angle, m.sxx * m.syy - m.sxy.powi(2), longer),
    })
}

/// Every direction whose two rotated coordinates Student's t does not find
/// correlated: `angle` give or take ½ arcsin(2t √(area²/(n − 2))/longer).
fn interval95(n: usize, angle: f64, squared_area: f64, longer: f64) -> Option<Interval> {
    let df = n.checked_sub(3).filter(|left| *left > 0)? + 1;
    let t = student_t_quantile(0.975, df)?;
    // Rounding may leave a perfect line with an area below 0.
    let sine = 2.0 * t * (squared_area.max(0.0) / df as f64).sqrt() / longer;
    if sine >= 1.0 {
        return None;
    }
    let reach = 0.5 * sine.asin();
    let (low, high) = (angle - reach, angle + reach);
    let is_bounded =
        low > -FRAC_PI_2 && high < FRAC_PI_2 && !is_vertical(low) && !is_vertical(high);
    is_bounded.then(|| Interval::new(low.tan(), high.tan()))
}

/// To within rounding.
fn is_vertical(angle: f64) -> bool {
    angle.cos() < 1e-9
}
