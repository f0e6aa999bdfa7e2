//! How far many pairs of marks agree: the statistics, each `None` where the
//! pairs are too few or leave it open.

use serde::{Deserialize, Serialize};

use super::FEWEST;
use crate::interval::Interval;
use crate::stats::agreement::{
    Coefficient, Differences, count_within, differences, drift, intraclass_correlations, linear,
    major_axis, spearman, weighted_kappa,
};
use crate::stats::interval::{Estimate, wilson95};
use crate::stats::spread::mean;

/// Two marks of one sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair {
    pub(super) sheet: i64,
    /// Who gave them; `None` where several gave the first.
    pub(super) people: Option<(i64, i64)>,
    /// Orders the sheets for the drift.
    pub(super) finished: i64,
    /// Marks that changed places between the points of the sheet, which its
    /// totals do not show; 0 of one point.
    pub(super) moved: i64,
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

/// The intraclass correlation of a single mark that fits who marked what
/// (Shrout and Fleiss 1979).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Intraclass {
    /// ICC(1,1): the two markers differ from sheet to sheet, so what one gives
    /// more than another cannot be told from other scatter.
    OneWay(Estimated),
    /// ICC(2,1): the same two people marked every sheet, and stand for markers
    /// in general. A marker who is severe throughout lowers it.
    TwoWay(Estimated),
}

/// How differences change from the first sheet marked to the last.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Drifting {
    /// In marks from one sheet of these to the next.
    pub per_sheet: Estimated,
    /// Mean difference of the last third less that of the first, in marks.
    pub last_less_first_third: Estimated,
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
    /// Marks that changed places within sheets: the second marker gave them on
    /// other points than the first, so that totals do not show it.
    pub moved: i64,
    /// On how many sheets any did.
    pub with_moved: usize,
    /// The largest difference.
    pub largest: Largest,
    /// The limits of agreement.
    pub limits: Option<Limits>,
    /// Cohen's weighted kappa: a disagreement weighs as much as the marks are
    /// apart. `None` too where either marker gave one mark throughout: it is 0
    /// then whatever they agree on.
    pub kappa: Option<Estimated>,
    /// The intraclass correlation.
    pub intraclass: Option<Intraclass>,
    /// Spearman's rank correlation.
    pub rank_correlation: Option<f64>,
    /// Slope of the major axis, second over first: below 1 the second marker
    /// bunches marks in the middle, above 1 the first does.
    pub slope: Option<Estimated>,
    /// Drift over the order in which the sheets were finished. `None` too where
    /// two were finished at the same moment: they have no order.
    pub drift: Option<Drifting>,
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
        let is_enough = marks.len() >= FEWEST;
        let limits = found.as_ref().filter(|_| is_enough).map(limits);
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
            moved: pairs.iter().map(|pair| pair.moved).sum(),
            with_moved: pairs.iter().filter(|pair| pair.moved > 0).count(),
            largest: largest(&pairs)?,
            limits,
            kappa: kappa(&marks).filter(|_| is_enough),
            intraclass: intraclass(&pairs).filter(|_| is_enough),
            rank_correlation: spearman(&marks).filter(|_| is_enough),
            slope: slope(&marks).filter(|_| is_enough),
            drift: drifting(&pairs).filter(|_| is_enough),
        })
    }

    /// Pairs beyond the tolerance.
    #[must_use]
    pub fn outside(&self) -> usize {
        self.n - self.within.count
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

fn limits(found: &Differences) -> Limits {
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

/// Where the same two people marked every sheet, whichever of them first, each
/// has a column of their own.
fn intraclass(pairs: &[Pair]) -> Option<Intraclass> {
    let two = pairs.first()?.people.map(in_order);
    let is_same_two = two.is_some() && pairs.iter().all(|pair| pair.people.map(in_order) == two);
    if !is_same_two {
        let table: Vec<Vec<f64>> = pairs
            .iter()
            .map(|pair| vec![pair.first, pair.second])
            .collect();
        let one_way = intraclass_correlations(&table)?.one_way.single?;
        return Some(Intraclass::OneWay(one_way.into()));
    }
    let table: Vec<Vec<f64>> = pairs
        .iter()
        .map(|pair| match pair.people {
            Some((first, second)) if first > second => vec![pair.second, pair.first],
            _ => vec![pair.first, pair.second],
        })
        .collect();
    let two_way = intraclass_correlations(&table)?.two_way_random.single?;
    Some(Intraclass::TwoWay(two_way.into()))
}

fn in_order((one, other): (i64, i64)) -> (i64, i64) {
    (one.min(other), one.max(other))
}

fn slope(marks: &[(f64, f64)]) -> Option<Estimated> {
    let axis = major_axis(marks)?;
    Some(Estimated {
        value: axis.slope,
        interval95: axis.interval95,
    })
}

fn drifting(pairs: &[Pair]) -> Option<Drifting> {
    let mut in_order = pairs.to_vec();
    in_order.sort_by_key(|pair| pair.finished);
    if in_order
        .windows(2)
        .any(|two| two[0].finished == two[1].finished)
    {
        return None;
    }
    let placed: Vec<(f64, f64)> = (0_u32..)
        .zip(&in_order)
        .map(|(place, pair)| (f64::from(place), pair.second - pair.first))
        .collect();
    let found = drift(&placed)?;
    Some(Drifting {
        per_sheet: found.slope.into(),
        last_less_first_third: found.last_less_first_third.into(),
    })
}
