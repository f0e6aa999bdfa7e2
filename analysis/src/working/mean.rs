//! The mean of the speeds.

use crate::field::Field;
use crate::figure::significant;
use crate::interval::Interval;
use crate::method::step::POWERS_OF_TEN;
use crate::slip::Slip;
use crate::sum::Sum;
use crate::unit::Unit;

use super::chain::{Basis, Chain, View, Wrong};
use super::judge::{Answer, Given};
use super::{Flag, Judgement};

/// Counts tried as a wrong divisor go this high, or two beyond the rows.
const LARGEST_COUNT: usize = 12;

/// More pairs than this that fit say that the mean is too coarse to tell.
const MOST_PAIRS: usize = 2;

/// A row's speed, as the group has it or as it follows.
#[derive(Clone, Copy)]
pub(super) struct Speed {
    row: usize,
    pub(super) value: Interval,
    left_out: bool,
    given: bool,
}

pub(super) fn judge(chain: &Chain<'_>, judgement: &mut Judgement) {
    let entry = chain.sheet.whole.get(Field::MeanSpeed);
    let given = entry.map(|entry| Given::new(0, Field::MeanSpeed, entry));
    let kept = given.as_ref().map(Given::kept);
    let own = kept_rows(&speeds(chain, Basis::Own, &[], kept));
    let follows = mean(&speeds_exact(chain)).map(Interval::mid);
    let right = given.as_ref().and_then(|given| right_unit(chain, given));
    let unsaid = given
        .as_ref()
        .filter(|_| right.is_none())
        .and_then(|given| left_out_unsaid(chain, given));
    let agrees_in = right.or(unsaid.as_ref().map(|(_, unit)| *unit));
    let answer = Answer::to(chain, Field::MeanSpeed, given.as_ref(), agrees_in);
    let arithmetic = follows
        .map(|mean| written_out(&own, mean, answer.figures))
        .unwrap_or_default();
    judgement.comparisons.push(answer.comparison(
        Field::MeanSpeed,
        given.as_ref(),
        follows,
        arithmetic.clone(),
        agrees_in.is_some(),
    ));
    let (Some(given), Some(follows)) = (given, follows) else {
        return;
    };
    if right.is_some() {
        return;
    }
    let flag = |row, slip, rival| Flag {
        row,
        step: Field::MeanSpeed,
        slip,
        given: given.text(),
        expected: given.like(follows),
        rival,
        arithmetic: arithmetic.clone(),
    };
    if let Some((rows, _)) = unsaid {
        let remarks = rows
            .into_iter()
            .map(|row| flag(Some(row), Slip::RowLeftOutUnsaid, None));
        judgement.flags.extend(remarks);
        return;
    }
    for (slip, rival) in explain(chain, &given) {
        judgement.flags.push(flag(None, slip, rival));
    }
}

/// The rows' speeds; with wrong turns in the figures that were not written
/// down, if any are given.
pub(super) fn speeds(
    chain: &Chain<'_>,
    basis: Basis,
    wrong: &[Wrong],
    kept: Option<u32>,
) -> Vec<Speed> {
    let view = View {
        basis,
        wrong,
        target: None,
        unit: None,
        kept,
    };
    (0..chain.sheet.rows.len())
        .filter_map(|row| {
            Some(Speed {
                row,
                value: chain.figure_turned(row, Field::Speed, &view)?,
                left_out: chain.sheet.rows[row].left_out,
                given: chain.entry(row, Field::Speed).is_some(),
            })
        })
        .collect()
}

fn speeds_exact(chain: &Chain<'_>) -> Vec<Speed> {
    kept_rows(&speeds(chain, Basis::Own, &[], None))
}

/// The rows that are not marked as left out; all of them where every one is.
pub(super) fn kept_rows(speeds: &[Speed]) -> Vec<Speed> {
    let kept: Vec<_> = speeds
        .iter()
        .filter(|speed| !speed.left_out)
        .copied()
        .collect();
    if kept.is_empty() {
        speeds.to_vec()
    } else {
        kept
    }
}

fn sum(speeds: &[Speed]) -> Option<Interval> {
    speeds
        .iter()
        .map(|speed| speed.value)
        .reduce(|sum, value| sum + value)
}

fn mean(speeds: &[Speed]) -> Option<Interval> {
    sum(speeds).map(|sum| sum.scale(1.0 / count(speeds)))
}

fn count(speeds: &[Speed]) -> f64 {
    speeds.iter().map(|_| 1.0).sum()
}

/// The unit in which theirs agrees with a worked mean.
fn agrees_in(given: &Given<'_>, worked: Option<Interval>) -> Option<Option<Unit>> {
    given.unit_in(&[worked?])
}

/// Right is the mean over the rows that are not marked as left out, whether
/// or not blank speeds were worked out for it; also with the right speed in
/// place of one that was mistyped.
fn right_unit(chain: &Chain<'_>, given: &Given<'_>) -> Option<Option<Unit>> {
    let of = |basis| kept_rows(&speeds(chain, basis, &[], Some(given.kept())));
    let (own, mended) = (of(Basis::Own), of(Basis::Mended));
    let one_mended = mended.iter().map(|right| {
        let own = own.iter();
        let speeds = own.map(|speed| {
            if speed.row == right.row {
                *right
            } else {
                *speed
            }
        });
        speeds.collect()
    });
    let mut every = [own.clone(), mended.clone()].into_iter().chain(one_mended);
    every.find_map(|all: Vec<Speed>| {
        let written: Vec<_> = all.iter().filter(|speed| speed.given).copied().collect();
        agrees_in(given, mean(&all)).or_else(|| agrees_in(given, mean(&written)))
    })
}

/// The unmarked rows without which the mean is right: one, or else the last
/// or the first few, at most half of them. (Any few of six rows would come
/// near almost any mean.) Where a row was marked and the mean over all of
/// them fits, that is the simpler story.
fn left_out_unsaid(chain: &Chain<'_>, given: &Given<'_>) -> Option<(Vec<usize>, Option<Unit>)> {
    let marked_too = speeds(chain, Basis::Own, &[], Some(given.kept()));
    let all = kept_rows(&marked_too);
    let fits_all = agrees_in(given, mean(&marked_too)).is_some();
    if all.len() < 3 || (all.len() < marked_too.len() && fits_all) {
        return None;
    }
    let one = (0..all.len()).map(|out| out..out + 1);
    let last = (2..=all.len() / 2).map(|few| all.len() - few..all.len());
    let first = (2..=all.len() / 2).map(|few| 0..few);
    one.chain(last).chain(first).find_map(|out| {
        let rest = [&all[..out.start], &all[out.end..]].concat();
        let unit = agrees_in(given, mean(&rest))?;
        Some((all[out].iter().map(|speed| speed.row).collect(), unit))
    })
}

/// Turns in taking the mean itself, in the order in which they are named.
fn mean_turns(all: &[Speed], of_means: Option<Interval>) -> Vec<(Slip, Interval)> {
    let kept = kept_rows(all);
    let mut turns = Vec::new();
    if kept.len() < all.len() {
        turns.extend(mean(all).map(|m| (Slip::AnomalyAveragedIn, m)));
    }
    let Some(total) = sum(&kept) else {
        return turns;
    };
    if kept.len() > 1 {
        turns.push((Slip::MeanNotDivided, total));
        turns.extend(of_means.map(|m| (Slip::MeansMultiplied, m)));
    }
    let largest = LARGEST_COUNT.max(all.len() + 2);
    let wrong = (2..=largest).filter(|divisor| *divisor != kept.len());
    turns.extend(wrong.map(|d| (Slip::MeanWrongCount, total.scale(1.0 / d as f64))));
    turns
}

/// Mean frequency × mean wavelength, over the rows of these speeds.
fn product_of_means(chain: &Chain<'_>, speeds: &[Speed], kept: Option<u32>) -> Option<Interval> {
    let view = View {
        basis: Basis::Own,
        kept,
        ..View::OURS
    };
    let mean_of = |field: Field| {
        let figures = speeds
            .iter()
            .map(|s| chain.figure_turned(s.row, field, &view));
        let figures: Option<Vec<_>> = figures.collect();
        let sum = figures?.into_iter().reduce(|sum, figure| sum + figure)?;
        Some(sum.scale(1.0 / count(speeds)))
    };
    Some(mean_of(Field::Frequency)? * mean_of(Field::Wavelength)?)
}

fn explain(chain: &Chain<'_>, given: &Given<'_>) -> Vec<(Slip, Option<Slip>)> {
    let kept = Some(given.kept());
    let all = speeds(chain, Basis::Own, &[], kept);
    let rows: Vec<_> = all.iter().map(|speed| speed.row).collect();
    let hidden: Vec<_> = if all.iter().all(|speed| speed.given) {
        Vec::new()
    } else {
        chain.turns_into(Field::Speed, &rows)
    };
    let with = |wrong: &[Wrong]| mean(&kept_rows(&speeds(chain, Basis::Own, wrong, kept)));
    let mut named = mean_turns(&all, product_of_means(chain, &kept_rows(&all), kept));
    named.extend(
        hidden
            .iter()
            .filter_map(|turn| Some((chain.slip(*turn), with(&[*turn])?))),
    );
    let fitting = |candidates: &[(Slip, Interval)]| -> Vec<Slip> {
        let fits = candidates
            .iter()
            .filter(|(_, worked)| agrees_in(given, Some(*worked)).is_some());
        let mut slips: Vec<_> = fits.map(|(slip, _)| *slip).collect();
        slips.dedup();
        slips
    };
    let found = fitting(&named);
    if let Some(first) = found.first() {
        return vec![(*first, found.get(1).copied())];
    }
    let heading = given.entry.interval();
    let out_by_ten = |worked: Option<Interval>| {
        worked.is_some_and(|w| {
            POWERS_OF_TEN
                .iter()
                .any(|p| heading.overlaps(w.scale(10_f64.powi(*p))))
        })
    };
    if out_by_ten(mean(&kept_rows(&all))) {
        return vec![(Slip::UnitPowerOfTen, None)];
    }
    // A wrong divisor with another turn on top would fit almost any figure,
    // so pairs are tried without it.
    let mut pairs: Vec<_> = named
        .iter()
        .filter(|(slip, worked)| *slip != Slip::MeanWrongCount && out_by_ten(Some(*worked)))
        .map(|(slip, _)| *slip)
        .collect();
    pairs.dedup();
    match pairs.as_slice() {
        [] => vec![(Slip::DoesNotFollow, None)],
        found if found.len() > MOST_PAIRS => vec![(Slip::DoesNotFollow, None)],
        found => vec![
            (found[0], found.get(1).copied()),
            (Slip::UnitPowerOfTen, None),
        ],
    }
}

fn written_out(speeds: &[Speed], mean: f64, figures: u32) -> Sum {
    let figures = figures.max(3);
    let terms: Vec<_> = speeds
        .iter()
        .map(|s| significant(s.value.mid(), figures))
        .collect();
    Sum::Figures(format!(
        "({}) ÷ {} = {} m/s",
        terms.join(" + "),
        speeds.len(),
        significant(mean, figures)
    ))
}
