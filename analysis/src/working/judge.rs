//! The walk: each step of the chain in turn, then mean and gradient.

use crate::field::{Field, Place};
use crate::figure::significant;
use crate::interval::Interval;
use crate::method::step::Step;
use crate::sheet::{Entry, Sheet};
use crate::slip::Slip;
use crate::sum::Sum;
use crate::unit::Unit;

use super::chain::{Basis, Chain, View, Wrong};
use super::explain::{Explained, Explanation, Fit, explain};
use super::{Comparison, Flag, Judgement, Verdict, gradient, mean, other_row, remark, uncertainty};

/// Judges the working of a sheet. `anomalous[i]` says whether row `i` does
/// not belong with the others; such rows are kept out of the lines that a
/// gradient is compared with.
pub(crate) fn judge(sheet: &Sheet, anomalous: &[bool]) -> Judgement {
    let mut chain = Chain::new(sheet);
    let mut judgement = Judgement::default();
    for step in chain.steps() {
        judge_step(&mut chain, step, &mut judgement);
    }
    mean::judge(&chain, &mut judgement);
    uncertainty::judge(&chain, &mut judgement);
    if sheet.method.has(Field::Gradient) {
        gradient::judge(&chain, anomalous, &mut judgement);
    }
    remark::remark(sheet, &judgement.comparisons, &mut judgement.flags);
    judgement
}

/// A figure that the group gave, with the units in which it may be read.
pub(super) struct Given<'s> {
    pub(super) row: usize,
    pub(super) entry: &'s Entry,
    /// The unit given, or where it is blank the heading's and then the others.
    pub(super) units: Vec<Option<Unit>>,
}

impl<'s> Given<'s> {
    pub(super) fn new(row: usize, field: Field, entry: &'s Entry) -> Self {
        let mut units = vec![entry.reading_unit()];
        if entry.unit.is_none() {
            let others = field.quantity().units().into_iter().map(Some);
            units.extend(others.filter(|unit| *unit != entry.reading_unit()));
        }
        Self { row, entry, units }
    }

    /// Significant figures to answer with: as many as theirs, where noughts
    /// at the end of a large number (`103000`) need not be figures.
    pub(super) fn figures(&self) -> u32 {
        let figure = &self.entry.figure;
        figure.least_figures().max(figure.figures().min(3))
    }

    /// Significant figures that a group which writes so many may have kept of
    /// a value that it did not write down: `110` may have come from two.
    pub(super) fn kept(&self) -> u32 {
        self.entry.figure.least_figures()
    }

    /// A value in SI written as the group wrote theirs.
    pub(super) fn like(&self, si: f64) -> String {
        let unit = self.entry.reading_unit().map_or(1.0, Unit::si);
        significant(si / unit, self.figures())
    }

    /// The first unit in which the figure agrees with one of these, in SI.
    pub(super) fn unit_in(&self, bands: &[Interval]) -> Option<Option<Unit>> {
        self.units.iter().copied().find(|unit| {
            let figure = self.entry.interval_in(*unit);
            bands.iter().any(|band| band.overlaps(figure))
        })
    }

    pub(super) fn text(&self) -> String {
        self.entry.figure.text().trim().to_owned()
    }

    pub(super) fn with_unit(&self) -> String {
        match (self.entry.figure.unit(), self.entry.unit) {
            (None, Some(unit)) => format!("{} {}", self.text(), unit.symbol()),
            _ => self.text(),
        }
    }
}

fn judge_step(chain: &mut Chain<'_>, step: &Step, judgement: &mut Judgement) {
    let rows = match step.field.place() {
        Place::Sheet => 0..1,
        Place::Row => 0..chain.sheet.rows.len(),
    };
    let mut column = Vec::new();
    let mut right = Vec::new();
    for row in rows {
        let given = chain
            .entry(row, step.field)
            .map(|entry| Given::new(row, step.field, entry));
        let follows = follows(chain, row, step.field, given.as_ref());
        let unit = given
            .as_ref()
            .and_then(|given| right_unit(chain, step.field, given));
        judgement.comparisons.push(compare(
            chain,
            step.field,
            row,
            given.as_ref(),
            follows,
            unit,
        ));
        if let Some(given) = given {
            if follows.is_some() {
                right.push(unit);
                column.push(given);
            } else {
                // Nothing to judge it by: it stands.
                let figure = given.entry.onward(given.entry.reading_unit(), None);
                chain.set_right(given.row, step.field, figure);
            }
        }
    }
    settle(chain, step, &column, &right, judgement);
}

/// The figure that follows from the group's earlier ones, in SI.
fn follows(chain: &Chain<'_>, row: usize, field: Field, given: Option<&Given<'_>>) -> Option<f64> {
    let unit = given.and_then(|given| given.entry.reading_unit());
    let view = View {
        basis: Basis::Own,
        target: Some(field),
        unit,
        ..View::OURS
    };
    chain.figure(row, field, &view).map(Interval::mid)
}

/// How a figure of the working is answered: in the unit in which theirs is
/// right, else in the one in which it is read; in the heading's where the box
/// is blank.
#[derive(Clone, Copy)]
pub(super) struct Answer {
    pub(super) unit: Option<Unit>,
    pub(super) figures: u32,
}

impl Answer {
    /// `right` is the unit in which theirs is right, if it is.
    pub(super) fn to(
        chain: &Chain<'_>,
        field: Field,
        given: Option<&Given<'_>>,
        right: Option<Option<Unit>>,
    ) -> Self {
        let heading = chain.sheet.method.heading_unit(field);
        let read_in = given.map_or(heading, |given| given.entry.reading_unit());
        Self {
            unit: right.unwrap_or(read_in),
            figures: given.map_or(3, Given::figures),
        }
    }

    pub(super) fn number(self, si: f64) -> String {
        significant(si / self.unit.map_or(1.0, Unit::si), self.figures)
    }

    /// Theirs beside ours, for a figure of the whole sheet. `follows` (in SI)
    /// and its `arithmetic` are ours.
    pub(super) fn comparison(
        self,
        field: Field,
        given: Option<&Given<'_>>,
        follows: Option<f64>,
        arithmetic: Sum,
        is_right: bool,
    ) -> Comparison {
        let symbol = self.unit.map_or("", Unit::symbol);
        let written = |si| {
            format!("{} {symbol}", self.number(si))
                .trim_end()
                .to_owned()
        };
        Comparison {
            row: None,
            field,
            given: given.map(Given::with_unit),
            follows: follows.map(written),
            arithmetic,
            read_in: given
                .filter(|given| given.entry.unit.is_none())
                .and(self.unit),
            verdict: match (given, follows) {
                (None, _) | (_, None) => Verdict::Unjudged,
                _ if is_right => Verdict::Right,
                _ => Verdict::Wrong,
            },
        }
    }
}

fn compare(
    chain: &Chain<'_>,
    field: Field,
    row: usize,
    given: Option<&Given<'_>>,
    follows: Option<f64>,
    right: Option<Option<Unit>>,
) -> Comparison {
    let answer = Answer::to(chain, field, given, right);
    let arithmetic = follows
        .map(|_| chain.arithmetic(row, field, answer.figures))
        .unwrap_or_default();
    Comparison {
        row: (field.place() == Place::Row).then_some(row),
        ..answer.comparison(field, given, follows, arithmetic, right.is_some())
    }
}

/// The unit in which a figure is right; `None` where it is right in none.
fn right_unit(chain: &Chain<'_>, field: Field, given: &Given<'_>) -> Option<Option<Unit>> {
    let units = given.units.iter().copied();
    let mut right = units.filter(|unit| right_in(chain, field, given, *unit).is_some());
    right.next()
}

/// What a figure is worked out to by the first right way that it agrees with,
/// were it in `unit`.
fn right_in(
    chain: &Chain<'_>,
    field: Field,
    given: &Given<'_>,
    unit: Option<Unit>,
) -> Option<Interval> {
    let figure = given.entry.interval_in(unit);
    let view = |basis| View {
        basis,
        wrong: &[],
        target: Some(field),
        unit,
        kept: Some(given.kept()),
    };
    // The other way goes through a figure of the group's that is right: a
    // wavelength written for 1/λ must not make f ÷ λ look right.
    let otherwise = || {
        chain
            .has_own(given.row, Field::Reciprocal)
            .then(|| chain.figure_otherwise(given.row, field, &view(Basis::Mended)))?
    };
    let agreeing = |worked: Interval| worked.overlaps(figure).then_some(worked);
    let by = |basis| chain.figure(given.row, field, &view(basis));
    by(Basis::Own)
        .and_then(agreeing)
        .or_else(|| by(Basis::Mended).and_then(agreeing))
        .or_else(|| otherwise().and_then(agreeing))
}

/// The unit in which wrong turns give a figure. Only a single named turn may
/// choose the unit of a figure that has none.
fn wrong_unit(
    chain: &Chain<'_>,
    field: Field,
    given: &Given<'_>,
    wrong: &[Wrong],
) -> Option<Option<Unit>> {
    let units = match wrong {
        [Wrong::Turn { .. }] => &given.units[..],
        _ => &given.units[..1],
    };
    units.iter().copied().find(|unit| {
        let kept = Some(given.kept());
        let view = View {
            basis: Basis::Own,
            wrong,
            target: Some(field),
            unit: *unit,
            kept,
        };
        chain
            .figure(given.row, field, &view)
            .is_some_and(|worked| worked.overlaps(given.entry.interval_in(*unit)))
    })
}

fn fit(chain: &Chain<'_>, field: Field, given: &Given<'_>, wrong: &[Wrong]) -> Fit {
    let view = View {
        basis: Basis::Own,
        wrong,
        target: Some(field),
        ..View::OURS
    };
    if chain.figure(given.row, field, &view).is_none() {
        Fit::NotThere
    } else if wrong_unit(chain, field, given, wrong).is_some() {
        Fit::Gives
    } else {
        Fit::Differs
    }
}

/// Names what went wrong in a column, and records what the group has there
/// for the steps after it.
fn settle(
    chain: &mut Chain<'_>,
    step: &Step,
    column: &[Given<'_>],
    right: &[Option<Option<Unit>>],
    judgement: &mut Judgement,
) {
    let is_right: Vec<_> = right.iter().map(Option::is_some).collect();
    let mut explained = if is_right.contains(&false) {
        let rows: Vec<_> = column.iter().map(|given| given.row).collect();
        let named = chain.turns_into(step.field, &rows);
        explain(chain, &named, &is_right, &|at, wrong| {
            fit(chain, step.field, &column[at], wrong)
        })
    } else {
        Explained {
            whole: None,
            rows: vec![None; column.len()],
        }
    };
    find_other_rows(chain, step, column, &mut explained);
    flag(chain, step.field, column, &explained, &mut judgement.flags);
    for (at, given) in column.iter().enumerate() {
        let mut turns = explained
            .whole
            .as_ref()
            .map_or_else(Vec::new, |whole| whole.turns.clone());
        let row = explained.rows[at].as_ref();
        turns.extend(row.map_or(&[][..], |row| &row.turns));
        carry(chain, step.field, given, right[at], &turns);
    }
}

/// Names another row's figure where nothing else explains a row's: in every
/// such row, where no row follows.
fn find_other_rows(
    chain: &Chain<'_>,
    step: &Step,
    column: &[Given<'_>],
    explained: &mut Explained,
) {
    let mut unexplained = Vec::new();
    for (at, row) in explained.rows.iter_mut().enumerate() {
        if let Some(explanation) = row.as_mut().filter(|row| row.turns.is_empty()) {
            let is_used = other_row::is_used(chain, step, &column[at]);
            unexplained.push((explanation, is_used));
        }
    }
    let none_follows = unexplained.len() == column.len();
    if none_follows && unexplained.iter().any(|(_, is_used)| !is_used) {
        return;
    }
    for (explanation, is_used) in unexplained {
        if is_used {
            explanation.turns.push(Wrong::OtherRow);
        }
    }
}

fn carry(
    chain: &mut Chain<'_>,
    field: Field,
    given: &Given<'_>,
    right: Option<Option<Unit>>,
    turns: &[Wrong],
) {
    let row = given.row;
    // A wrong turn in a figure that was not written down is carried from
    // here on, and was named just once.
    let hidden: Vec<_> = turns
        .iter()
        .filter_map(|turn| match *turn {
            Wrong::Turn { field: at, .. } if at != field => Some(at),
            _ => None,
        })
        .filter_map(|at| {
            let view = View {
                basis: Basis::Own,
                wrong: turns,
                kept: Some(given.kept()),
                ..View::OURS
            };
            Some((at, chain.figure(row, at, &view)?))
        })
        .collect();
    for (at, figure) in hidden {
        chain.set_own(row, at, figure);
    }
    let onward = onward(chain, field, given, right, turns);
    if right.is_some() {
        chain.set_right(row, field, onward);
    } else {
        chain.set_own(row, field, onward);
    }
    let tells_wavelength = right.is_some() || turns.is_empty();
    if field == Field::Reciprocal && tells_wavelength && !chain.has_own(row, Field::Wavelength) {
        chain.set_own(row, Field::Wavelength, onward.recip());
    }
}

/// What the steps after a figure go on with. A frequency that is a copy of the
/// reading is as exact as that, whatever noughts it ends in.
fn onward(
    chain: &Chain<'_>,
    field: Field,
    given: &Given<'_>,
    right: Option<Option<Unit>>,
    turns: &[Wrong],
) -> Interval {
    let view = View {
        basis: Basis::Own,
        wrong: turns,
        target: Some(field),
        ..View::OURS
    };
    let copied = || given.entry.copy_of(chain.figure(given.row, field, &view)?);
    if let Some(copied) = (field == Field::Frequency).then(copied).flatten() {
        return copied;
    }
    match right {
        Some(unit) => given
            .entry
            .onward(unit, right_in(chain, field, given, unit)),
        None => {
            let unit = wrong_unit(chain, field, given, turns);
            let unit = unit.unwrap_or_else(|| given.entry.reading_unit());
            given.entry.onward(unit, None)
        }
    }
}

fn flag(
    chain: &Chain<'_>,
    field: Field,
    column: &[Given<'_>],
    explained: &Explained,
    flags: &mut Vec<Flag>,
) {
    if let (Some(whole), Some(first)) = (&explained.whole, column.first()) {
        flags.extend(flags_of(chain, field, first, None, whole));
    }
    let nothing = |row: &Option<Explanation>| row.as_ref().is_some_and(|e| e.turns.is_empty());
    if explained.rows.len() > 1 && explained.rows.iter().all(nothing) {
        // No row follows, and nothing says why: one flag says so.
        if let (Some(first), Some(Some(explanation))) = (column.first(), explained.rows.first()) {
            flags.extend(flags_of(chain, field, first, None, explanation));
        }
        return;
    }
    for (given, row) in column.iter().zip(&explained.rows) {
        if let Some(explanation) = row {
            let row = (field.place() == Place::Row).then_some(given.row);
            flags.extend(flags_of(chain, field, given, row, explanation));
        }
    }
}

fn flags_of(
    chain: &Chain<'_>,
    field: Field,
    given: &Given<'_>,
    row: Option<usize>,
    explanation: &Explanation,
) -> Vec<Flag> {
    let expected = follows(chain, given.row, field, Some(given));
    let flag = |(slip, rival)| Flag {
        row,
        step: field,
        slip,
        given: given.text(),
        expected: expected.map(|si| given.like(si)).unwrap_or_default(),
        rival,
        arithmetic: chain.arithmetic(given.row, field, given.figures()),
    };
    named(chain, explanation).into_iter().map(flag).collect()
}

/// The slips of an explanation, each with its rival.
fn named(chain: &Chain<'_>, explanation: &Explanation) -> Vec<(Slip, Option<Slip>)> {
    if explanation.turns.is_empty() {
        return vec![(Slip::DoesNotFollow, None)];
    }
    let slips = |turns: &[Wrong]| -> Vec<Slip> {
        let mut slips: Vec<_> = turns.iter().map(|turn| chain.slip(*turn)).collect();
        slips.dedup();
        slips
    };
    let chosen = slips(&explanation.turns);
    let mut others = explanation.rival.as_deref().map(slips).unwrap_or_default();
    others.retain(|slip| !chosen.contains(slip));
    // A slip that the rival explanation names too has no rival.
    let shared = explanation.rival.as_deref().map(slips).unwrap_or_default();
    let mut others = others.into_iter();
    chosen
        .into_iter()
        .map(|slip| {
            (
                slip,
                if shared.contains(&slip) {
                    None
                } else {
                    others.next()
                },
            )
        })
        .collect()
}
