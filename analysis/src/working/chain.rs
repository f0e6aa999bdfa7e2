//! The figures of a sheet, worked out step by step: the group's own where it
//! gave one, ours where it did not.
//!
//! # Three bases
//! A figure is worked out from the group's own figures (an error is carried
//! forward), from mended ones (its own where right, ours where not: a later
//! figure that ignores an earlier slip is right too), or from ours. A typed
//! figure stands for all that rounds to it, and readings are exact; what a group
//! may have rounded without writing it down widens right and wrong turns alike.
//! A figure agrees when the intervals overlap.

use crate::entry::Entries;
use crate::field::{Field, Place};
use crate::interval::Interval;
use crate::method::step::{Inputs, Operation, Step};
use crate::sheet::{Entry, Sheet};
use crate::slip::Slip;
use crate::sum::Sum;
use crate::unit::Unit;

/// Which earlier figures a step is fed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Basis {
    /// The group's own, right or wrong: error carried forward.
    Own,
    /// The group's own where it is right, ours where it is not: a later
    /// figure that ignores an earlier slip is right too.
    Mended,
    /// Ours throughout, from the readings.
    Ours,
}

/// One wrong turn that may have been taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wrong {
    /// A turn of a step, by its place in the step's list.
    Turn { field: Field, index: usize },
    /// The judged figure is out by this power of ten.
    PowerOfTen(i32),
    /// Another row's figure was used.
    OtherRow,
}

/// What a row takes from another row.
#[derive(Debug)]
pub(crate) enum Borrowed {
    /// An earlier figure of the chain.
    Figure(Field, Interval),
    /// A reading: its own readings with that one exchanged.
    Reading(Entries),
}

/// How a figure is to be worked out.
#[derive(Clone, Copy, Debug)]
pub(crate) struct View<'w> {
    pub(crate) basis: Basis,
    /// The wrong turns taken on the way; none for the right figure.
    pub(crate) wrong: &'w [Wrong],
    /// The figure that is judged: it is worked out even where it was given.
    pub(crate) target: Option<Field>,
    /// The unit in which the judged figure is read.
    pub(crate) unit: Option<Unit>,
    /// Significant figures kept of values that were not written down.
    pub(crate) kept: Option<u32>,
}

impl View<'_> {
    /// The right figure from the readings alone.
    pub(crate) const OURS: View<'static> = View {
        basis: Basis::Ours,
        wrong: &[],
        target: None,
        unit: None,
        kept: None,
    };
}

/// Figures that stand for what the group has, by row and step.
#[derive(Clone, Debug)]
struct Known {
    steps: &'static [Step],
    rows: usize,
    figures: Vec<Option<Interval>>,
}

impl Known {
    fn empty(steps: &'static [Step], rows: usize) -> Self {
        let rows = rows.max(1);
        Self {
            steps,
            rows,
            figures: vec![None; rows * steps.len()],
        }
    }

    fn slot(&self, row: usize, field: Field) -> Option<usize> {
        let step = self.steps.iter().position(|step| step.field == field)?;
        Some(row * self.steps.len() + step)
    }

    /// A whole-sheet figure is kept in every row's slots.
    fn get(&self, row: usize, field: Field) -> Option<Interval> {
        *self.figures.get(self.slot(row, field)?)?
    }

    fn set(&mut self, row: usize, field: Field, figure: Interval) {
        let rows = match field.place() {
            Place::Sheet => 0..self.rows,
            Place::Row => row..row + 1,
        };
        for row in rows {
            if let Some(slot) = self.slot(row, field) {
                self.figures[slot] = Some(figure);
            }
        }
    }
}

/// A sheet's chain while it is judged.
#[derive(Clone, Debug)]
pub(crate) struct Chain<'s> {
    pub(crate) sheet: &'s Sheet,
    own: Known,
    mended: Known,
}

impl<'s> Chain<'s> {
    pub(crate) fn new(sheet: &'s Sheet) -> Self {
        let known = Known::empty(sheet.method.chain(), sheet.rows.len());
        Self {
            sheet,
            own: known.clone(),
            mended: known,
        }
    }

    pub(crate) fn steps(&self) -> &'static [Step] {
        self.sheet.method.chain()
    }

    pub(crate) fn step(&self, field: Field) -> Option<&'static Step> {
        self.steps().iter().find(|s| s.field == field)
    }

    pub(crate) fn entry(&self, row: usize, field: Field) -> Option<&'s Entry> {
        match field.place() {
            Place::Sheet => self.sheet.whole.get(field),
            Place::Row => self.sheet.rows.get(row)?.entries.get(field),
        }
    }

    /// Records what the group has at a step: later steps are judged on it.
    pub(crate) fn set_own(&mut self, row: usize, field: Field, figure: Interval) {
        self.own.set(row, field, figure);
    }

    /// Records a figure of the group's that is right.
    pub(crate) fn set_right(&mut self, row: usize, field: Field, figure: Interval) {
        self.own.set(row, field, figure);
        self.mended.set(row, field, figure);
    }

    pub(crate) fn has_own(&self, row: usize, field: Field) -> bool {
        self.own.get(row, field).is_some()
    }

    /// A figure as `view` works it out, in SI units; `None` where a reading
    /// that it needs is missing.
    pub(crate) fn figure(&self, row: usize, field: Field, view: &View<'_>) -> Option<Interval> {
        if view.target == Some(field) {
            return self.worked(row, field, view, |step| step.right);
        }
        let known = match view.basis {
            Basis::Own => self.own.get(row, field),
            Basis::Mended => self.mended.get(row, field),
            Basis::Ours => None,
        };
        known
            .or_else(|| {
                let worked = self.worked(row, field, view, |step| step.right)?;
                Some(self.inputs(row, view, &|_| None).carried(worked))
            })
            .or_else(|| {
                // No readings behind it: the group's figure is all there is.
                let entry = self.entry(row, field)?;
                Some(entry.onward(entry.reading_unit(), None))
            })
    }

    /// A figure as `view` works it out; the right one where its wrong turns
    /// cannot be taken in this row (no multiplier to leave out).
    pub(crate) fn figure_turned(
        &self,
        row: usize,
        field: Field,
        view: &View<'_>,
    ) -> Option<Interval> {
        self.figure(row, field, view).or_else(|| {
            self.figure(
                row,
                field,
                &View {
                    wrong: &[],
                    ..*view
                },
            )
        })
    }

    /// The judged figure by the other way that is just as right, where the
    /// group wrote down what that way needs.
    pub(crate) fn figure_otherwise(
        &self,
        row: usize,
        field: Field,
        view: &View<'_>,
    ) -> Option<Interval> {
        let other = self.step(field)?.also_right?;
        self.worked(row, field, view, |_| other)
    }

    /// A figure by the right turn, with what is taken from another row.
    pub(crate) fn figure_borrowing(
        &self,
        row: usize,
        field: Field,
        view: &View<'_>,
        borrowed: &Borrowed,
    ) -> Option<Interval> {
        let earlier = |earlier: Field| match borrowed {
            Borrowed::Figure(of, figure) if *of == earlier => Some(*figure),
            _ => self.figure(row, earlier, view),
        };
        let own = self.inputs(row, view, &earlier);
        let inputs = match borrowed {
            Borrowed::Reading(entries) => Inputs {
                row: Some(entries),
                ..own
            },
            Borrowed::Figure(..) => own,
        };
        (self.step(field)?.right)(&inputs)
    }

    fn worked(
        &self,
        row: usize,
        field: Field,
        view: &View<'_>,
        way: impl Fn(&Step) -> fn(&Inputs<'_>) -> Option<Interval>,
    ) -> Option<Interval> {
        let step = self.step(field)?;
        let earlier = |earlier: Field| self.figure(row, earlier, view);
        let inputs = self.inputs(row, view, &earlier);
        let mut figure = way(step)(&inputs)?;
        for wrong in view.wrong {
            match *wrong {
                Wrong::Turn { field: at, index } if at == field => {
                    let turned = (step.wrong.get(index)?.apply)(&inputs, figure)?;
                    // A turn that changes nothing (a multiplier of one left
                    // out) was not taken.
                    if turned == figure {
                        return None;
                    }
                    figure = turned;
                }
                Wrong::PowerOfTen(power) if view.target == Some(field) => {
                    figure = figure.scale(10_f64.powi(power));
                }
                _ => {}
            }
        }
        Some(figure)
    }

    pub(crate) fn inputs<'a>(
        &'a self,
        row: usize,
        view: &View<'_>,
        earlier: &'a dyn Fn(Field) -> Option<Interval>,
    ) -> Inputs<'a> {
        Inputs {
            whole: &self.sheet.whole,
            row: self.sheet.rows.get(row).map(|row| &row.entries),
            earlier,
            unit: view.unit,
            kept: view.kept,
        }
    }

    /// The step's arithmetic written out on the group's own earlier figures.
    pub(crate) fn arithmetic(&self, row: usize, field: Field, figures: u32) -> Sum {
        let unit = self
            .entry(row, field)
            .map_or(self.sheet.method.heading_unit(field), Entry::reading_unit);
        let view = View {
            basis: Basis::Own,
            target: Some(field),
            unit,
            ..View::OURS
        };
        let earlier = |earlier: Field| self.figure(row, earlier, &view);
        let inputs = self.inputs(row, &view, &earlier);
        self.step(field)
            .map_or(Sum::None, |step| (step.arithmetic)(&inputs, figures))
    }

    /// The wrong turns that may show in a figure: its own, and those of the
    /// figures that it needs and that some row left blank.
    pub(crate) fn turns_into(&self, field: Field, rows: &[usize]) -> Vec<Wrong> {
        let Some(step) = self.step(field) else {
            return Vec::new();
        };
        let mut turns: Vec<_> = (0..step.wrong.len())
            .map(|index| Wrong::Turn { field, index })
            .collect();
        for &needed in step.needs {
            if rows.iter().any(|&row| !self.has_own(row, needed)) {
                turns.extend(self.turns_into(needed, rows));
            }
        }
        turns
    }

    pub(crate) fn slip(&self, wrong: Wrong) -> Slip {
        match wrong {
            Wrong::PowerOfTen(_) => Slip::UnitPowerOfTen,
            Wrong::OtherRow => Slip::OtherRowsFigure,
            Wrong::Turn { field, index } => self
                .step(field)
                .and_then(|step| step.wrong.get(index))
                .map_or(Slip::DoesNotFollow, |turn| turn.slip),
        }
    }

    /// Whether two turns can both have been taken.
    pub(crate) fn compatible(&self, one: Wrong, other: Wrong) -> bool {
        let about = |wrong| -> Option<Operation> {
            let Wrong::Turn { field, index } = wrong else {
                return None;
            };
            Some(self.step(field)?.wrong.get(index)?.about)
        };
        match (one, other) {
            (Wrong::Turn { field: a, .. }, Wrong::Turn { field: b, .. }) if a == b => {
                about(one) != about(other)
            }
            (Wrong::PowerOfTen(_), Wrong::PowerOfTen(_)) => false,
            _ => self.slip(one) != self.slip(other),
        }
    }
}
