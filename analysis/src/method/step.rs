//! A step in a chain: what it needs, the right turn, the wrong turns, and the
//! arithmetic written out.

use crate::entry::{Entries, Entry};
use crate::field::{Field, Place};
use crate::figure::significant;
use crate::interval::Interval;
use crate::slip::Slip;
use crate::sum::Sum;
use crate::unit::Unit;

/// What a turn may look at: the readings of its row and sheet, and the
/// figures worked out before it.
pub(crate) struct Inputs<'a> {
    /// The figures of the whole sheet.
    pub(crate) whole: &'a Entries,
    /// Those of the row; any row's where a whole-sheet figure is worked out.
    pub(crate) row: Option<&'a Entries>,
    /// Earlier figures of the chain, in SI units.
    pub(crate) earlier: &'a dyn Fn(Field) -> Option<Interval>,
    /// The unit in which the judged figure is read. Only a turn that forgets
    /// what its figure measures needs it (a wavelength in cm written where
    /// 1/m is asked).
    pub(crate) unit: Option<Unit>,
    /// How many figures a group that writes to so many may have kept of a
    /// value that it did not write down; `None` for exact working.
    pub(crate) kept: Option<u32>,
}

impl Inputs<'_> {
    /// A value on the way that the group may have rounded without writing it
    /// down: widened by what rounding to as many figures as they give would
    /// do. An honest sheet is never accused for a calculator's memory.
    pub(crate) fn carried(&self, value: Interval) -> Interval {
        let Some(figures) = self.kept else {
            return value;
        };
        let size = value.mid().abs();
        if size <= 0.0 || !size.is_finite() {
            return value;
        }
        let decade = size.log10().floor();
        let half = 0.5 * 10_f64.powf(decade - f64::from(figures.max(2)) + 1.0);
        value + Interval::new(-half, half)
    }

    /// The entry in a box of the row, or of the sheet.
    pub(crate) fn entry(&self, field: Field) -> Option<&Entry> {
        match field.place() {
            Place::Sheet => self.whole.get(field),
            Place::Row => self.row?.get(field),
        }
    }

    /// A reading in SI units. Readings are exact when working is judged.
    pub(crate) fn reading(&self, field: Field) -> Option<f64> {
        self.entry(field).map(Entry::si)
    }

    /// A reading as an interval of no width.
    pub(crate) fn exact(&self, field: Field) -> Option<Interval> {
        self.reading(field).map(Interval::exact)
    }

    /// An earlier figure of the chain.
    pub(crate) fn figure(&self, field: Field) -> Option<Interval> {
        (self.earlier)(field)
    }

    /// How many were counted from the first number called to the last.
    pub(crate) fn count(&self, first: Field, last: Field) -> Option<f64> {
        self.row?.counted(first, last)
    }

    /// A reading as it was typed, with its unit: `22.4 cm`.
    pub(crate) fn typed(&self, field: Field) -> String {
        self.entry(field).map_or_else(String::new, Entry::typed)
    }
}

/// An earlier figure as a number in `unit`, to `figures` significant figures.
pub(crate) fn written(figure: Option<Interval>, unit: Option<Unit>, figures: u32) -> String {
    figure.map_or_else(
        || "?".to_owned(),
        |f| significant(f.mid() / unit.map_or(1.0, Unit::si), figures),
    )
}

/// An earlier figure as it goes into a sum: four significant figures, or three
/// where the fourth is a nought, so that the sum comes out as printed.
pub(crate) fn fed(figure: Option<Interval>, unit: Option<Unit>) -> String {
    let (four, three) = (written(figure, unit, 4), written(figure, unit, 3));
    match (four.parse::<f64>(), three.parse::<f64>()) {
        (Ok(precise), Ok(short)) if (precise - short).abs() <= 1e-9 * precise.abs() => three,
        _ => four,
    }
}

/// The powers of ten by which a figure is out where mm, cm and m are mixed or
/// a multiplier is missed.
pub(crate) const POWERS_OF_TEN: [i32; 6] = [-1, 1, -2, 2, -3, 3];

/// What a wrong turn is about. Two turns about one operation exclude each
/// other: nobody both leaves the enlargement out and multiplies by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Operation {
    Counting,
    Scaling,
    Halving,
    Multiplier,
    Timing,
    Combining,
}

/// A wrong turn: takes the figure as it would have been and gives the one
/// that this turn leads to, in SI units. `None` where the turn cannot be
/// taken (no enlargement to leave out).
#[derive(Debug)]
pub(crate) struct Turn {
    pub(crate) slip: Slip,
    pub(crate) about: Operation,
    pub(crate) apply: fn(&Inputs<'_>, Interval) -> Option<Interval>,
}

/// One figure of the chain.
pub(crate) struct Step {
    pub(crate) field: Field,
    /// Figures worked out before it that it uses.
    pub(crate) needs: &'static [Field],
    /// Measured readings that it uses, and whose figures it cannot outdo.
    /// Counted numbers are exact, and none of them.
    pub(crate) measured: &'static [Field],
    /// The right turn, in SI units.
    pub(crate) right: fn(&Inputs<'_>) -> Option<Interval>,
    /// Another way to the same figure that is just as right.
    pub(crate) also_right: Option<fn(&Inputs<'_>) -> Option<Interval>>,
    /// The wrong turns, in the order in which they are named.
    pub(crate) wrong: &'static [Turn],
    /// The right turn written out, results to so many significant figures.
    pub(crate) arithmetic: fn(&Inputs<'_>, u32) -> Sum,
}

impl std::fmt::Debug for Step {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Step")
            .field("field", &self.field)
            .finish_non_exhaustive()
    }
}
