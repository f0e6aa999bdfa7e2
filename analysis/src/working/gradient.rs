//! The gradient of f against 1/λ: drawn by hand, so compared with all the
//! lines that a careful pupil could draw through the group's own points.
//!
//! The band of right gradients runs from the fit through the origin to the
//! free fit, each widened by two standard errors and the whole by 3 % for
//! reading the graph. With two rows, where there is no standard error, it is
//! widened by the rounding of the points. (Our choice, no source.)

use crate::field::Field;
use crate::interval::Interval;
use crate::method::step::POWERS_OF_TEN;
use crate::slip::Slip;
use crate::stats::line;
use crate::sum::Sum;
use crate::unit::Unit;

use super::chain::{Basis, Chain, View, Wrong};
use super::judge::{Answer, Given};
use super::{Flag, Judgement};

/// What reading a graph may add either way, as a share.
const READING: f64 = 0.03;

/// A plotted point: 1/λ along, f up, in SI.
#[derive(Clone, Copy)]
struct Point {
    along: Interval,
    up: Interval,
}

pub(super) fn judge(chain: &Chain<'_>, anomalous: &[bool], judgement: &mut Judgement) {
    let entry = chain.sheet.whole.get(Field::Gradient);
    let given = entry.map(|entry| Given::new(0, Field::Gradient, entry));
    let follows = through_origin(&points(chain, Basis::Own, &[], Some(anomalous)));
    let right = right_bands(chain, anomalous);
    let agrees_in = given.as_ref().and_then(|given| given.unit_in(&right));
    let answer = Answer::to(chain, Field::Gradient, given.as_ref(), agrees_in);
    // Lines are read off a graph to three figures, however few were written.
    let answer = Answer {
        figures: answer.figures.max(3),
        ..answer
    };
    let arithmetic = lines_drawable(chain, given.as_ref(), &right, answer);
    judgement.comparisons.push(answer.comparison(
        Field::Gradient,
        given.as_ref(),
        follows,
        arithmetic.clone(),
        agrees_in.is_some(),
    ));
    let (Some(given), Some(follows)) = (given, follows) else {
        return;
    };
    if agrees_in.is_some() || right.is_empty() {
        return;
    }
    for (slip, rival) in explain(chain, &given, &right, anomalous) {
        judgement.flags.push(Flag {
            row: None,
            step: Field::Gradient,
            slip,
            given: given.text(),
            expected: given.like(follows),
            rival,
            arithmetic: arithmetic.clone(),
        });
    }
}

/// The points that a group would plot: rows not left out, and not anomalous
/// where those are named.
fn points(
    chain: &Chain<'_>,
    basis: Basis,
    wrong: &[Wrong],
    anomalous: Option<&[bool]>,
) -> Vec<Point> {
    let view = View {
        basis,
        wrong,
        target: None,
        unit: None,
        kept: None,
    };
    let [along, up] = chain.sheet.method.spec().graph;
    (0..chain.sheet.rows.len())
        .filter(|&row| !chain.sheet.rows[row].left_out)
        .filter(|&row| anomalous.is_none_or(|a| !a.get(row).copied().unwrap_or(false)))
        .filter_map(|row| {
            Some(Point {
                along: chain.figure_turned(row, along, &view)?,
                up: chain.figure_turned(row, up, &view)?,
            })
        })
        .collect()
}

fn middles(points: &[Point]) -> Vec<(f64, f64)> {
    points
        .iter()
        .map(|point| (point.along.mid(), point.up.mid()))
        .collect()
}

fn through_origin(points: &[Point]) -> Option<f64> {
    line::through_origin(&middles(points)).map(|line| line.slope.value)
}

/// All gradients that a careful pupil could read off a line through these
/// points, in m/s.
fn band(points: &[Point]) -> Option<Interval> {
    let middles = middles(points);
    let origin = line::through_origin(&middles)?.slope;
    let mut ends = vec![
        origin.value - 2.0 * origin.se,
        origin.value + 2.0 * origin.se,
    ];
    if let Some(free) = line::with_intercept(&middles).map(|line| line.slope) {
        ends.extend([free.value - 2.0 * free.se, free.value + 2.0 * free.se]);
    }
    if let [one, other] = points {
        let slope = (other.up - one.up) / (other.along - one.along);
        ends.extend(
            [slope.low, slope.high]
                .into_iter()
                .filter(|end| end.is_finite()),
        );
    }
    let low = ends.iter().copied().fold(f64::INFINITY, f64::min);
    let high = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    Some(for_reading(Interval::new(low, high)))
}

fn for_reading(band: Interval) -> Interval {
    Interval::new(
        band.low - READING * band.low.abs(),
        band.high + READING * band.high.abs(),
    )
}

/// Bands of right gradients: on the group's own points and on mended ones,
/// with and without the rows found anomalous.
fn right_bands(chain: &Chain<'_>, anomalous: &[bool]) -> Vec<Interval> {
    [Basis::Own, Basis::Mended]
        .into_iter()
        .flat_map(|basis| [Some(anomalous), None].map(|a| band(&points(chain, basis, &[], a))))
        .flatten()
        .collect()
}

/// One way to a wrong gradient, and the band of figures that it gives.
struct Candidate {
    slip: Slip,
    band: Interval,
}

fn explain(
    chain: &Chain<'_>,
    given: &Given<'_>,
    right: &[Interval],
    anomalous: &[bool],
) -> Vec<(Slip, Option<Slip>)> {
    // Wrong turns count only where they fall clear of the right ones.
    let fitting = |candidates: &[Candidate]| -> Vec<Slip> {
        let clear = |band: Interval| !right.iter().any(|right| right.overlaps(band));
        let fits = candidates
            .iter()
            .filter(|c| clear(c.band) && given.unit_in(&[c.band]).is_some());
        let mut slips: Vec<Slip> = Vec::new();
        for candidate in fits {
            if !slips.contains(&candidate.slip) {
                slips.push(candidate.slip);
            }
        }
        slips
    };
    // A turn in the gradient itself comes first: the bands of turns before it
    // are wide, and would make rivals of what is plain.
    // The line may have been drawn without the rows found anomalous or, as
    // the right one may, with them.
    let of_rows = |rows: fn(&Chain<'_>, &Given<'_>, Option<&[bool]>) -> Vec<Candidate>| {
        let mut candidates = rows(chain, given, Some(anomalous));
        if anomalous.contains(&true) {
            candidates.extend(rows(chain, given, None));
        }
        candidates
    };
    let named = of_rows(named);
    for candidates in [&named, &of_rows(carried)] {
        let found = fitting(candidates);
        if let Some(first) = found.first() {
            return vec![(*first, found.get(1).copied())];
        }
    }
    let own = band(&points(chain, Basis::Own, &[], Some(anomalous)));
    if let Some(band) = own
        && !fitting(&by_tens(Slip::UnitPowerOfTen, band)).is_empty()
    {
        return vec![(Slip::UnitPowerOfTen, None)];
    }
    let pairs: Vec<_> = named
        .iter()
        .filter(|c| c.slip != Slip::GradientFromOnePoint)
        .flat_map(|c| by_tens(c.slip, c.band))
        .collect();
    match fitting(&pairs).as_slice() {
        [one] => vec![(*one, None), (Slip::UnitPowerOfTen, None)],
        _ => vec![(Slip::DoesNotFollow, None)],
    }
}

fn by_tens(slip: Slip, band: Interval) -> Vec<Candidate> {
    POWERS_OF_TEN
        .map(|power| Candidate {
            slip,
            band: band.scale(10_f64.powi(power)),
        })
        .into()
}

fn named(chain: &Chain<'_>, given: &Given<'_>, anomalous: Option<&[bool]>) -> Vec<Candidate> {
    let own = points(chain, Basis::Own, &[], anomalous);
    let mut candidates = Vec::new();
    // Where the points scatter, the band of all lines turned upside down
    // reaches far; the best line's own reciprocal may still stand clear.
    let best = through_origin(&own).map(|slope| for_reading(Interval::exact(slope)));
    for lines in band(&own).into_iter().chain(best) {
        // A figure in s/m has no right unit in a box for m/s: what was
        // written is the bare number, with lengths in m or as tabulated.
        let unit = given.entry.reading_unit().map_or(1.0, Unit::si);
        let [along, _] = chain.sheet.method.spec().graph;
        let tabulated = chain
            .sheet
            .rows
            .iter()
            .find_map(|row| row.entries.get(along)?.reading_unit())
            .map_or(1.0, Unit::si);
        candidates.extend([1.0, tabulated].map(|length| Candidate {
            slip: Slip::GradientUpsideDown,
            band: lines.scale(length).recip().scale(unit),
        }));
    }
    let every = points(chain, Basis::Own, &[], None);
    if every.len() > 1 {
        candidates.extend(every.iter().map(|point| Candidate {
            slip: Slip::GradientFromOnePoint,
            band: for_reading(point.up / point.along),
        }));
    }
    candidates
}

/// Gradients of the points as a wrong turn in a figure that was not written
/// down would have put them.
fn carried(chain: &Chain<'_>, _: &Given<'_>, anomalous: Option<&[bool]>) -> Vec<Candidate> {
    let rows: Vec<_> = (0..chain.sheet.rows.len()).collect();
    let mut candidates = Vec::new();
    let [along, up] = chain.sheet.method.spec().graph;
    for field in [up, along] {
        if rows.iter().all(|row| chain.has_own(*row, field)) {
            continue;
        }
        for turn in chain.turns_into(field, &rows) {
            let wrong = points(chain, Basis::Own, &[turn], anomalous);
            let slip = chain.slip(turn);
            candidates.extend(band(&wrong).map(|band| Candidate { slip, band }));
        }
    }
    candidates
}

/// The band that theirs lies in, where it lies in one; none where there is no
/// line to draw.
fn lines_drawable(
    chain: &Chain<'_>,
    given: Option<&Given<'_>>,
    right: &[Interval],
    answer: Answer,
) -> Sum {
    let theirs =
        given.and_then(|given| right.iter().find(|band| given.unit_in(&[**band]).is_some()));
    let drawable = theirs
        .or(right.first())
        .filter(|_| points(chain, Basis::Own, &[], None).len() > 1);
    drawable.map_or(Sum::None, |band| {
        let end = |si: f64| answer.number(si).replace('-', "−");
        let unit = answer.unit.map_or("", Unit::symbol);
        Sum::Lines(end(band.low), format!("{} {unit}", end(band.high)))
    })
}
