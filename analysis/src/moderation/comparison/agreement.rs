//! How far many pairs of marks agree: the statistics, each `None` where the
//! pairs are too few or leave it open.

use serde::{Deserialize, Serialize};

use super::FEWEST;
use crate::interval::Interval;
use crate::stats::agreement::{
    Coefficient, Differences, count_within, differences, intraclass_correlation, linear,
    weighted_kappa,
};
use crate::stats::interval::{Estimate, wilson95};
use crate::stats::spread::mean;

/// Two marks of one sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair {
    pub(super) sheet: i64,
    pub(super) first: f64,
    pub(super) second: f64,
}

/// A statistic with its 95 % interval. `None`: the pairs leave that open.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Estimated {
    /// The statistic.
    pub value: f64,
    /// Its interval.
    pub interval95: Option<Interval>,
}

/// How many of the pairs, with Wilson's 95 % interval for their share.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Share {
    /// How many.
    pub count: usize,
    /// Of the share, 0 to 1.
    pub interval95: Option<Interval>,
}

/// Between which about 95 % of differences lie, if they are normal: mean ±
/// 1.96 standard deviations (Bland and Altman 1986).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Limits {
    /// The lower limit, in marks.
    pub lower: Estimated,
    /// The upper limit, in marks.
    pub upper: Estimated,
}

/// The largest difference, whatever its sign; of equals the sheet with the
/// lowest number.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Largest {
    /// The sheet.
    pub sheet: i64,
    /// Second − first, in marks.
    pub difference: f64,
}

/// How far pairs of marks agree. Marks are whole sheets' totals, or those of
/// one point.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Agreement {
    /// Their number, 1 or more.
    pub n: usize,
    /// How far they might have been apart, in marks.
    pub tolerance: i64,
    /// Mean difference, second − first, in marks; Student's t. Two pairs or
    /// more for its interval.
    pub mean: Estimated,
    /// Mean size of the differences, in marks.
    pub mean_absolute: f64,
    /// Standard deviation of the differences, in marks; of two pairs or more.
    pub sd: Option<f64>,
    /// Pairs that are the same.
    pub exact: Share,
    /// Pairs within the tolerance.
    pub within: Share,
    /// Pairs of which the second is the higher.
    pub above: usize,
    /// Pairs of which the second is the lower.
    pub below: usize,
    /// The largest difference.
    pub largest: Largest,
    /// The limits of agreement of totals. `None` of a single point, and below
    /// [`FEWEST`] sheets.
    pub limits: Option<Limits>,
}

/// How far the totals of all sheets agree, as two coefficients of the whole
/// round. Each is `None` below [`FEWEST`] sheets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Coefficients {
    /// Cohen's weighted kappa: a disagreement weighs as much as the totals are
    /// apart. `None` too where either marking gave one total throughout: it is
    /// 0 then whatever they agree on.
    pub kappa: Option<Estimated>,
    /// The intraclass correlation ICC(1,1) of Shrout and Fleiss (1979): the
    /// two markers differ from sheet to sheet, so what one gives more than
    /// another cannot be told from other scatter.
    pub icc: Option<Estimated>,
}

impl Agreement {
    /// The statistics of some pairs; `None` of none.
    pub(super) fn of(pairs: &[Pair], tolerance: i64) -> Option<Self> {
        // By number, so that sums come out the same in whatever order they came.
        let mut pairs = pairs.to_vec();
        pairs.sort_by_key(|pair| pair.sheet);
        let marks: Vec<(f64, f64)> = pairs.iter().map(|pair| (pair.first, pair.second)).collect();
        let each: Vec<f64> = marks.iter().map(|(first, second)| second - first).collect();
        let sizes: Vec<f64> = each.iter().map(|difference| difference.abs()).collect();
        let found = differences(&marks);
        let mean_difference = Estimated {
            value: mean(&each)?,
            interval95: found.as_ref().and_then(|found| found.mean.interval95()),
        };
        Some(Self {
            n: marks.len(),
            tolerance,
            mean: mean_difference,
            mean_absolute: mean(&sizes)?,
            sd: found.as_ref().map(|found| found.sd),
            exact: share(count_within(&marks, 0.0), marks.len()),
            within: share(count_within(&marks, tolerance as f64), marks.len()),
            above: each.iter().filter(|difference| **difference > 0.0).count(),
            below: each.iter().filter(|difference| **difference < 0.0).count(),
            largest: largest(&pairs)?,
            limits: found.filter(|_| marks.len() >= FEWEST).map(limits),
        })
    }

    /// Pairs beyond the tolerance.
    #[must_use]
    pub fn outside(&self) -> usize {
        self.n - self.within.count
    }
}

impl Coefficients {
    /// The coefficients of the totals of a round.
    pub(super) fn of(pairs: &[Pair]) -> Self {
        if pairs.len() < FEWEST {
            return Self::default();
        }
        let mut pairs = pairs.to_vec();
        pairs.sort_by_key(|pair| pair.sheet);
        let marks: Vec<(f64, f64)> = pairs.iter().map(|pair| (pair.first, pair.second)).collect();
        let table: Vec<Vec<f64>> = pairs
            .iter()
            .map(|pair| vec![pair.first, pair.second])
            .collect();
        Self {
            kappa: kappa(&marks),
            icc: intraclass_correlation(&table).map(Estimated::from),
        }
    }
}

impl From<Estimate> for Estimated {
    fn from(estimate: Estimate) -> Self {
        Self {
            value: estimate.value,
            interval95: estimate.interval95(),
        }
    }
}

impl From<Coefficient> for Estimated {
    fn from(coefficient: Coefficient) -> Self {
        Self {
            value: coefficient.value,
            interval95: coefficient.interval95,
        }
    }
}

fn share(count: usize, n: usize) -> Share {
    Share {
        count,
        interval95: wilson95(count, n),
    }
}

fn limits(found: Differences) -> Limits {
    let limits = found.limits_of_agreement();
    Limits {
        lower: limits.lower.into(),
        upper: limits.upper.into(),
    }
}

fn largest(pairs: &[Pair]) -> Option<Largest> {
    let each = pairs.iter().map(|pair| Largest {
        sheet: pair.sheet,
        difference: pair.second - pair.first,
    });
    each.reduce(|largest, next| {
        if next.difference.abs() > largest.difference.abs() {
            next
        } else {
            largest
        }
    })
}

fn kappa(marks: &[(f64, f64)]) -> Option<Estimated> {
    let varies = |mark: fn(&(f64, f64)) -> f64| {
        marks
            .windows(2)
            .any(|two| (mark(&two[0]) - mark(&two[1])).abs() > 0.0)
    };
    if !(varies(|(first, _)| *first) && varies(|(_, second)| *second)) {
        return None;
    }
    let kappa = weighted_kappa(marks, linear)?;
    Some(Estimated {
        value: kappa.value,
        interval95: kappa.interval95(),
    })
}
