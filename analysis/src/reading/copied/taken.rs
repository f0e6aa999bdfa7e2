//! What a sheet's group read off its instruments, apart from what it chose.

use std::collections::{BTreeMap, BTreeSet};

use crate::field::Field;
use crate::method::prior;
use crate::sheet::{Entries, Sheet};

/// Where a reading stands: its setting, which of the setting's repeats, and
/// what was read.
pub(super) type Place = (String, usize, Field);

/// One measured reading, in SI units.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reading {
    pub(super) value: f64,
    /// The step in which the group reads.
    pub(super) step: f64,
    /// The instrument's standard deviation.
    pub(super) sd: f64,
}

impl Reading {
    /// Whether both show the same figure, however it was written.
    pub(super) fn agrees(&self, other: &Self) -> bool {
        is_same(self.value, other.value)
    }
}

/// The readings of a sheet.
#[derive(Clone, Debug)]
pub(super) struct Taken {
    /// All figures of each row with a reading, in order whatever the order of
    /// the rows: sheets that agree have the same.
    pub(super) figures: Vec<String>,
    /// What was measured and not chosen.
    pub(super) measured: BTreeMap<Place, Reading>,
}

/// A reading with what its row was set to.
struct Placed {
    place: Place,
    /// Waves or loops in the row's length.
    count: f64,
    reading: Reading,
}

impl Taken {
    pub(super) fn of(sheet: &Sheet) -> Self {
        let mut figures = Vec::new();
        let mut repeats: BTreeMap<String, usize> = BTreeMap::new();
        let mut all: Vec<Placed> = Vec::new();
        for row in &sheet.rows {
            let set = sheet.method.model().setting(&row.entries);
            let (setting, fields) = (set.chosen.map(digits).join(" "), set.measured);
            let count = set.count.unwrap_or(1.0);
            let times = row.entries.si(Field::DialTimes).unwrap_or(1.0);
            let readings = fields.map(|field| reading(&row.entries, field, times));
            if readings.iter().all(Option::is_none) {
                continue;
            }
            let number = repeats.entry(setting.clone()).or_default();
            let read = readings.iter().map(|r| digits(r.map(|r| r.value)));
            figures.push(format!("{setting}: {}", read.collect::<Vec<_>>().join(" ")));
            for (field, reading) in fields.into_iter().zip(readings) {
                let place = (setting.clone(), *number, field);
                all.extend(reading.map(|reading| Placed {
                    place,
                    count,
                    reading,
                }));
            }
            *number += 1;
        }
        figures.sort_unstable();
        let chosen: Vec<bool> = (0..all.len()).map(|at| is_chosen(&all, at)).collect();
        let mut chosen = chosen.into_iter();
        all.retain(|_| !chosen.next().unwrap_or(false));
        let fields: BTreeSet<Field> = all.iter().map(|placed| placed.place.2).collect();
        for field in fields {
            coarsen(&mut all, field);
        }
        let measured = all.into_iter().map(|p| (p.place, p.reading)).collect();
        Self { figures, measured }
    }
}

/// Equal but for binary rounding.
fn is_same(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs())
}

/// A figure without how it was written: `25.1 cm` is `251 mm`.
fn digits(value: Option<f64>) -> String {
    value.map_or_else(|| "-".to_owned(), |value| format!("{value:.8e}"))
}

fn reading(entries: &Entries, field: Field, times: f64) -> Option<Reading> {
    let entry = entries.get(field)?;
    let times = if field == Field::Dial { times } else { 1.0 };
    let value = entry.si() * times;
    let sd = match field {
        Field::Seconds => prior::SECONDS_SD,
        Field::Length => prior::STRING_LENGTH_SD,
        Field::Dial => prior::RESONANCE_SD * value,
        _ => prior::SPAN_SD,
    };
    Some(Reading {
        value,
        step: entry.resolution() * times,
        sd,
    })
}

/// Whether a reading was set or worked out: rows of other settings have the
/// same value (an end to end length, ten seconds), or an earlier one has it in
/// proportion to its count (the second resonance dialled at twice the first).
fn is_chosen(all: &[Placed], at: usize) -> bool {
    let this = &all[at];
    let per_count = |placed: &Placed| placed.reading.value / placed.count;
    all.iter().enumerate().any(|(other_at, other)| {
        other.place.2 == this.place.2
            && other.place.0 != this.place.0
            && (other.reading.agrees(&this.reading)
                || (other_at < at && is_same(per_count(this), per_count(other))))
    })
}

/// Gives all readings of a field the coarsest step that they share: of the
/// finest digit typed, or 2, 5 or 10 of it where all are multiples of that.
fn coarsen(all: &mut [Placed], field: Field) {
    let mut of_field: Vec<&mut Reading> = all
        .iter_mut()
        .filter(|placed| placed.place.2 == field)
        .map(|placed| &mut placed.reading)
        .collect();
    let steps = of_field.iter().map(|reading| reading.step);
    let finest = steps.fold(f64::INFINITY, f64::min);
    let fits = |factor: &f64| {
        let mut steps = of_field.iter().map(|r| r.value / (finest * factor));
        steps.all(|steps| (steps - steps.round()).abs() < 1e-6)
    };
    let factor = [10.0, 5.0, 2.0].into_iter().find(fits).unwrap_or(1.0);
    for reading in &mut of_field {
        reading.step = finest * factor;
    }
}
