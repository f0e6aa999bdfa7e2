//! The boxes of a sheet or of a row, once their text has been read.

use std::collections::BTreeMap;

use crate::field::Field;
use crate::figure::Figure;
use crate::interval::Interval;
use crate::unit::Unit;

/// How far from a figure as typed the one may lie that the next step goes on
/// with, as a share. (Our choice, no source.)
const MOST_ONWARD: f64 = 0.05;

/// From a number to the end of an interval that is farther from it.
fn farthest(interval: Interval, from: f64) -> f64 {
    (interval.high - from)
        .abs()
        .max((from - interval.low).abs())
}

/// A box whose text has been read.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The figure.
    pub figure: Figure,
    /// The unit typed with it or beside it; `None` where it was left blank.
    pub unit: Option<Unit>,
    /// The unit in which it is read: its own, else the heading's.
    reading_unit: Option<Unit>,
}

impl Entry {
    /// An entry that is read in its own unit, else in the heading's.
    pub(crate) fn new(figure: Figure, unit: Option<Unit>, heading: Option<Unit>) -> Self {
        Self {
            figure,
            unit,
            reading_unit: unit.or(heading),
        }
    }

    /// The value in SI units (a temperature in degrees Celsius), read in its
    /// own unit, else in the heading's.
    #[must_use]
    pub fn si(&self) -> f64 {
        self.figure.value() * self.reading_unit.map_or(1.0, Unit::si)
    }

    /// Every value that the figure stands for, in SI units, were it in `unit`.
    #[must_use]
    pub fn interval_in(&self, unit: Option<Unit>) -> Interval {
        self.figure.interval().scale(unit.map_or(1.0, Unit::si))
    }

    /// Every value that the figure stands for, in SI units.
    #[must_use]
    pub fn interval(&self) -> Interval {
        self.interval_in(self.reading_unit)
    }

    /// The figure as it goes into the next step, in SI units, were it in
    /// `unit`: as typed, to half a unit of its last place but never more than
    /// 5 % either way. `right` is what it would be exactly, where it is right:
    /// that may have stayed on the calculator.
    pub(crate) fn onward(&self, unit: Option<Unit>, right: Option<Interval>) -> Interval {
        let scale = unit.map_or(1.0, Unit::si);
        let typed = self.figure.value() * scale;
        let all = self.interval_in(unit);
        let half = (all.high - typed).max(typed - all.low);
        let to_right = right.map_or(0.0, |right| farthest(right, typed));
        let reach = half.min(to_right.max(MOST_ONWARD * typed.abs()));
        Interval::new(typed - reach, typed + reach)
    }

    /// The figure, where to its last digit it is a copy of one that is known
    /// exactly, in SI units: the typed number and that one.
    pub(crate) fn copy_of(&self, exact: Interval) -> Option<Interval> {
        let apart = farthest(exact, self.si());
        let is_copy = apart <= 0.5 * self.resolution() * (1.0 + 1e-9);
        is_copy.then(|| Interval::new(self.si() - apart, self.si() + apart))
    }

    /// The unit in which the figure is read: its own, else the heading's;
    /// `None` for counts and ratios.
    #[must_use]
    pub fn reading_unit(&self) -> Option<Unit> {
        self.reading_unit
    }

    /// The step of its last digit, in SI units.
    #[must_use]
    pub fn resolution(&self) -> f64 {
        self.figure.resolution() * self.reading_unit.map_or(1.0, Unit::si)
    }

    /// The standard uncertainty of writing it down to its last digit, as a
    /// share of it: uniform over one unit of that digit, half-width over √3
    /// (GUM, JCGM 100:2008, 4.3.7).
    #[must_use]
    pub fn rounding(&self) -> f64 {
        self.figure.resolution() / (12.0_f64.sqrt() * self.figure.value().abs())
    }

    /// The figure as typed, with the unit in which it is read: `22.4 cm`.
    #[must_use]
    pub fn typed(&self) -> String {
        self.with_unit(self.figure.text())
    }

    /// Another text in this box, with the unit in which it is read.
    pub(crate) fn with_unit(&self, text: &str) -> String {
        let unit = self.reading_unit.map_or("", Unit::symbol);
        if self.figure.unit().is_some() || unit.is_empty() {
            text.trim().to_owned()
        } else {
            format!("{} {unit}", text.trim())
        }
    }
}

/// The boxes of a sheet or of a row that hold a figure.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entries(BTreeMap<Field, Entry>);

impl Entries {
    /// The entry in a box, if it was filled in.
    #[must_use]
    pub fn get(&self, field: Field) -> Option<&Entry> {
        self.0.get(&field)
    }

    /// The value in a box, in SI units.
    #[must_use]
    pub fn si(&self, field: Field) -> Option<f64> {
        self.get(field).map(Entry::si)
    }

    /// How many were counted from the first number called to the last. A
    /// blank first number is nought, as the practical teaches it.
    #[must_use]
    pub fn counted(&self, first: Field, last: Field) -> Option<f64> {
        Some(self.si(last)? - self.si(first).unwrap_or(0.0))
    }

    /// All filled boxes, in the order of the work.
    pub fn iter(&self) -> impl Iterator<Item = (Field, &Entry)> {
        self.0.iter().map(|(field, entry)| (*field, entry))
    }

    pub(crate) fn get_mut(&mut self, field: Field) -> Option<&mut Entry> {
        self.0.get_mut(&field)
    }

    pub(crate) fn insert(&mut self, field: Field, entry: Entry) {
        self.0.insert(field, entry);
    }
}

/// One checked row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The row's number as the group wrote it.
    pub label: String,
    /// Its figures.
    pub entries: Entries,
    /// Whether the group left it out as anomalous.
    pub left_out: bool,
}
