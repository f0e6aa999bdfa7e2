//! Intraclass correlations: how much of the scatter of marks is the sheets'.
//!
//! Shrout and Fleiss (1979), *Psychological Bulletin* 86, 420-428, for all
//! six coefficients and their intervals. The interval of an average is that
//! of the single coefficient, stepped up as the coefficient is (Spearman and
//! Brown).

mod mean_squares;

use self::mean_squares::{MeanSquares, mean_squares};
use crate::interval::Interval;
use crate::stats::interval::f_quantile;

/// Below this share of the largest mean square, a denominator is rounding.
const NOTHING: f64 = 1e-12;

/// One intraclass correlation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coefficient {
    /// The estimate: 1 where all scatter is the sheets', 0 or below where
    /// none is. At most 1.
    pub value: f64,
    /// Its F-based 95 % interval. `None` where that is not bounded.
    pub interval95: Option<Interval>,
}

/// A correlation for one marker's mark, and for the mean of all markers'.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Icc {
    /// Of a single mark. `None` where there is nothing to divide by.
    pub single: Option<Coefficient>,
    /// Of the mean of all k marks. `None` likewise.
    pub average: Option<Coefficient>,
}

/// The six coefficients. Which of them is right depends on who marked what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IntraclassCorrelations {
    /// Sheets, n.
    pub sheets: usize,
    /// Markers of each, k.
    pub markers: usize,
    /// ICC(1,1) and ICC(1,k): each sheet was marked by other markers.
    pub one_way: Icc,
    /// ICC(2,1) and ICC(2,k): the same markers marked all sheets and stand
    /// for markers in general. A severe marker lowers it.
    pub two_way_random: Icc,
    /// ICC(3,1) and ICC(3,k): the same markers marked all sheets, and only
    /// they are asked about. A severe marker does not show in it.
    pub two_way_mixed: Icc,
}

/// The intraclass correlations of a table with a row for each sheet and
/// a column for each marker.
///
/// `None` for fewer than two rows or two columns, for rows of different
/// lengths (a gap), where all figures are the same, and where one is not
/// finite.
#[must_use]
pub fn intraclass_correlations(table: &[Vec<f64>]) -> Option<IntraclassCorrelations> {
    let squares = mean_squares(table)?;
    let two_way_df = (squares.n - 1.0) * (squares.k - 1.0);
    Some(IntraclassCorrelations {
        sheets: table.len(),
        markers: table.first()?.len(),
        one_way: squares.icc_by_ratio(squares.within, squares.n * (squares.k - 1.0)),
        two_way_random: squares.icc_two_way_random(),
        two_way_mixed: squares.icc_by_ratio(squares.residual, two_way_df),
    })
}

impl MeanSquares {
    /// `top`/`bottom`, unless `bottom` is nothing or below.
    fn share(&self, top: f64, bottom: f64) -> Option<f64> {
        (bottom > NOTHING * self.largest()).then(|| (top / bottom).min(1.0))
    }

    /// The coefficients that rest on one ratio of mean squares, that of the
    /// sheets over `noise`: (B − N)/(B + (k − 1)N) and (B − N)/B.
    fn icc_by_ratio(&self, noise: f64, noise_df: f64) -> Icc {
        let sheets_df = self.n - 1.0;
        let single = |b: f64, n: f64| self.share(b - n, b + (self.k - 1.0) * n);
        let average = |b: f64, n: f64| self.share(b - n, b);
        let limits = |form: &dyn Fn(f64, f64) -> Option<f64>| {
            let low = form(self.sheets, noise * f_quantile(0.975, sheets_df, noise_df)?)?;
            let high = form(self.sheets * f_quantile(0.975, noise_df, sheets_df)?, noise)?;
            Some(Interval::new(low, high))
        };
        let coefficient = |form: &dyn Fn(f64, f64) -> Option<f64>| {
            Some(Coefficient {
                value: form(self.sheets, noise)?,
                interval95: limits(form),
            })
        };
        Icc {
            single: coefficient(&single),
            average: coefficient(&average),
        }
    }

    /// (B − E)/(B + (k − 1)E + k(J − E)/n) and (B − E)/(B + (J − E)/n).
    fn icc_two_way_random(&self) -> Icc {
        let (b, j, e) = (self.sheets, self.markers, self.residual);
        let markers_share = (j - e) / self.n;
        let single = self.share(b - e, b + (self.k - 1.0) * e + self.k * markers_share);
        let interval = single.and_then(|value| self.interval_two_way_random(value));
        Icc {
            single: single.map(|value| Coefficient {
                value,
                interval95: interval,
            }),
            average: self
                .share(b - e, b + markers_share)
                .map(|value| Coefficient {
                    value,
                    interval95: interval.and_then(|single| self.step_up(single)),
                }),
        }
    }

    /// Satterthwaite's degrees of freedom stand in for those of the mixture
    /// of markers and residual. They are below 1 only for coefficients below
    /// 0, and then there is no interval.
    fn interval_two_way_random(&self, single: f64) -> Option<Interval> {
        let (n, k) = (self.n, self.k);
        let (b, j, e) = (self.sheets, self.markers, self.residual);
        let of_markers = k * single * j;
        let of_residual = (n * (1.0 + (k - 1.0) * single) - k * single) * e;
        let whole = (n - 1.0) * of_markers.powi(2) + of_residual.powi(2);
        let nothing = NOTHING * self.largest();
        if whole.sqrt() <= nothing {
            // Full agreement, unless only the sheets' means do not scatter.
            return (j.max(e) <= nothing).then(|| Interval::exact(1.0));
        }
        let df = (k - 1.0) * (n - 1.0) * (of_markers + of_residual).powi(2) / whole;
        let noise = k * j + (k * n - k - n) * e;
        let up = f_quantile(0.975, n - 1.0, df)?;
        let down = f_quantile(0.975, df, n - 1.0)?;
        let low = self.share(n * (b - up * e), up * noise + n * b)?;
        let high = self.share(n * (down * b - e), noise + n * down * b)?;
        Some(Interval::new(low, high))
    }

    /// From the interval of a single mark to that of the mean of k.
    fn step_up(&self, single: Interval) -> Option<Interval> {
        let step = |r: f64| {
            let whole = 1.0 + (self.k - 1.0) * r;
            (whole > NOTHING).then(|| self.k * r / whole)
        };
        Some(Interval::new(step(single.low)?, step(single.high)?))
    }
}
