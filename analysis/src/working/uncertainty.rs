//! The uncertainty of the mean: half the range of the speeds in it.
//!
//! Common practice in schools, no source: a half-range is what a class of
//! fourteen can work out by hand. It is compared but never flagged, since no
//! slip of the methods is about it.

use crate::field::Field;
use crate::figure::significant;
use crate::interval::Interval;
use crate::sum::Sum;

use super::Judgement;
use super::chain::{Basis, Chain};
use super::judge::{Answer, Given};
use super::mean::{self, Speed};

pub(super) fn judge(chain: &Chain<'_>, judgement: &mut Judgement) {
    let entry = chain.sheet.whole.get(Field::Uncertainty);
    let given = entry.map(|entry| Given::new(0, Field::Uncertainty, entry));
    let kept = given.as_ref().map(Given::kept);
    let own = mean::kept_rows(&mean::speeds(chain, Basis::Own, &[], kept));
    let follows = range(&own).map(|range| range.scale(0.5));
    let right = given.as_ref().and_then(|given| {
        let mended = mean::kept_rows(&mean::speeds(chain, Basis::Mended, &[], kept));
        let bands = [&own, &mended].map(|speeds| range(speeds).map(|range| range.scale(0.5)));
        given.unit_in(&bands.into_iter().flatten().collect::<Vec<_>>())
    });
    let answer = Answer::to(chain, Field::Uncertainty, given.as_ref(), right);
    let is_whole = given.as_ref().is_some_and(|given| {
        right.is_none() && range(&own).is_some_and(|whole| given.unit_in(&[whole]).is_some())
    });
    let arithmetic = follows.map_or(Sum::None, |_| written_out(&own, is_whole));
    judgement.comparisons.push(answer.comparison(
        Field::Uncertainty,
        given.as_ref(),
        follows.map(Interval::mid),
        arithmetic,
        right.is_some(),
    ));
}

/// Largest less smallest; `None` for fewer than two speeds.
fn range(speeds: &[Speed]) -> Option<Interval> {
    if speeds.len() < 2 {
        return None;
    }
    let largest = |end: fn(&Speed) -> f64| speeds.iter().map(end).fold(f64::NEG_INFINITY, f64::max);
    let smallest = |end: fn(&Speed) -> f64| speeds.iter().map(end).fold(f64::INFINITY, f64::min);
    let (low, high) = (
        |speed: &Speed| speed.value.low,
        |speed: &Speed| speed.value.high,
    );
    Some(Interval::new(
        (largest(low) - smallest(high)).max(0.0),
        largest(high) - smallest(low),
    ))
}

fn written_out(speeds: &[Speed], is_whole: bool) -> Sum {
    let mids = || speeds.iter().map(|speed| speed.value.mid());
    let largest = mids().fold(f64::NEG_INFINITY, f64::max);
    let smallest = mids().fold(f64::INFINITY, f64::min);
    let sum = format!(
        "({} − {}) ÷ 2 = {} m/s",
        significant(largest, 3),
        significant(smallest, 3),
        significant((largest - smallest) / 2.0, 2)
    );
    if is_whole {
        Sum::WholeRange(sum)
    } else {
        Sum::Figures(sum)
    }
}
