//! The middle of some numbers, and how far they scatter about it.

use statrs::distribution::{Binomial, DiscreteCDF};

use super::interval::Estimate;
use crate::interval::Interval;

/// The arithmetic mean. `None` for no values.
///
/// Summed twice: what rounding took from the first sum is given back by the
/// mean of the deviations from it.
#[must_use]
pub fn mean(values: &[f64]) -> Option<f64> {
    if values.is_empty() {
        return None;
    }
    let n = values.len() as f64;
    let rough = values.iter().sum::<f64>() / n;
    Some(rough + values.iter().map(|x| x - rough).sum::<f64>() / n)
}

/// The sample standard deviation, with n − 1 below. `None` for fewer than two
/// values.
///
/// Two passes: the squares are taken about a mean that is already right to
/// the last bit or two.
#[must_use]
pub fn sample_sd(values: &[f64]) -> Option<f64> {
    if values.len() < 2 {
        return None;
    }
    Some((sum_of_squares(values)? / (values.len() - 1) as f64).sqrt())
}

/// The sum of squared deviations from the mean. `None` for no values.
fn sum_of_squares(values: &[f64]) -> Option<f64> {
    let mean = mean(values)?;
    Some(values.iter().map(|x| (x - mean).powi(2)).sum())
}

/// The mean, with the standard error s/√n. `None` for no values; with one
/// value the standard error is 0 on no degrees of freedom.
#[must_use]
pub fn mean_estimate(values: &[f64]) -> Option<Estimate> {
    let value = mean(values)?;
    let n = values.len();
    Some(Estimate {
        value,
        se: sample_sd(values).map_or(0.0, |sd| sd / (n as f64).sqrt()),
        df: n - 1,
    })
}

/// The standard deviation within groups that share one scatter about levels
/// of their own: √(Σ squares within / Σ (n − 1)). `None` where no group has
/// two values.
#[must_use]
pub fn pooled_sd(groups: &[&[f64]]) -> Option<f64> {
    let df: usize = groups.iter().map(|g| g.len().saturating_sub(1)).sum();
    if df == 0 {
        return None;
    }
    let squares: f64 = groups.iter().filter_map(|g| sum_of_squares(g)).sum();
    Some((squares / df as f64).sqrt())
}

/// The middle value, or the mean of the two middle ones. `None` for no
/// values.
#[must_use]
pub fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let upper = *sorted.get(sorted.len() / 2)?;
    if sorted.len() % 2 == 1 {
        return Some(upper);
    }
    let lower = sorted[sorted.len() / 2 - 1];
    Some(lower + (upper - lower) / 2.0)
}

/// An interval that holds the median of what the values are drawn from, with
/// a probability of 95 % or more, whatever their distribution.
///
/// From the r-th lowest to the r-th highest value, with the largest r for
/// which fewer than r of n fair coins fall heads in 2.5 % of throws at most
/// (the sign test, turned round). Conover (1999), *Practical Nonparametric
/// Statistics*, 3rd ed., 3.2. `None` for fewer than six values, of which not
/// even the extremes are far enough out.
#[must_use]
pub fn median_interval95(values: &[f64]) -> Option<Interval> {
    let n = u64::try_from(values.len()).ok()?;
    let coins = Binomial::new(0.5, n).ok()?;
    let beyond = (0_u64..)
        .take_while(|heads| coins.cdf(*heads) <= 0.025)
        .count();
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let low = sorted.get(beyond.checked_sub(1)?)?;
    let high = sorted.get(values.len() - beyond)?;
    Some(Interval::new(*low, *high))
}

/// The median of the distances from the median. `None` for no values.
#[must_use]
pub fn median_absolute_deviation(values: &[f64]) -> Option<f64> {
    let middle = median(values)?;
    let distances: Vec<f64> = values.iter().map(|x| (x - middle).abs()).collect();
    median(&distances)
}

/// Two figures closer than this share of the largest are the same figure,
/// worked out along two ways.
const SAME: f64 = 1e-12;

/// Whether a spread is nothing but rounding beside the values it is taken
/// from.
pub(super) fn is_no_spread(spread: f64, values: &[f64]) -> bool {
    let largest = values.iter().fold(0.0_f64, |most, x| most.max(x.abs()));
    spread <= SAME * largest
}
