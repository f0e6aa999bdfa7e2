//! What a sheet's group read off its instruments, apart from what it chose.

use super::Declared;
use crate::field::Field;
use crate::method::Method;
use crate::reading::prior;
use crate::sheet::{Entries, Entry, Row, Sheet};
use crate::stats::spread::mean;
use crate::unit::Unit;

/// One measured reading, in SI units.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reading {
    pub(super) field: Field,
    pub(super) value: f64,
    /// The step in which the group reads.
    pub(super) step: f64,
    /// The share of the group's readings that it rounds to five steps, beyond
    /// those that fall there.
    pub(super) fives: f64,
    /// The instrument's standard deviation.
    pub(super) sd: f64,
}

impl Reading {
    /// Whether both show the same figure, however it was written.
    pub(super) fn agrees(&self, other: &Self) -> bool {
        is_same(self.value, other.value)
    }
}

/// What a group chose for a row: frequency and count, or loops. Rows with the
/// same setting on the same kit measure the same thing.
#[derive(Clone, Copy, Debug)]
pub(super) struct Setting([Option<f64>; 3]);

impl PartialEq for Setting {
    fn eq(&self, other: &Self) -> bool {
        self.0
            .iter()
            .zip(other.0)
            .all(|(one, other)| match (one, other) {
                (Some(one), Some(other)) => is_same(*one, other),
                (one, other) => one.is_none() && other.is_none(),
            })
    }
}

/// A row with something measured in it.
#[derive(Clone, Debug)]
pub(super) struct TakenRow {
    /// Its index in the sheet.
    pub(super) index: usize,
    pub(super) setting: Setting,
    /// Waves or loops in the row's length.
    count: f64,
    pub(super) readings: Vec<Reading>,
}

/// The readings of a sheet.
#[derive(Clone, Debug)]
pub(super) struct Taken {
    pub(super) method: Method,
    pub(super) rows: Vec<TakenRow>,
    /// The length on the screen of the object of known size.
    pub(super) scale: Option<Reading>,
}

impl Taken {
    pub(super) fn of(declared: &Declared<'_>) -> Self {
        let sheet = declared.sheet;
        let mut rows: Vec<_> = (0..)
            .zip(&sheet.rows)
            .map(|(i, r)| row(sheet, i, r))
            .collect();
        drop_what_was_chosen(&mut rows);
        rows.retain(|row| !row.readings.is_empty());
        for field in [Field::Span, Field::Seconds, Field::Length] {
            coarsen(&mut rows, field);
        }
        Self {
            method: sheet.method,
            rows,
            scale: reading(&sheet.whole, Field::ScaleImage, 1.0),
        }
    }

    /// Rows with this setting.
    pub(super) fn repeats(&self, setting: Setting) -> usize {
        self.rows
            .iter()
            .filter(|row| row.setting == setting)
            .count()
    }
}

/// Equal but for binary rounding.
fn is_same(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs())
}

fn row(sheet: &Sheet, index: usize, row: &Row) -> TakenRow {
    let entries = &row.entries;
    let times = entries.si(Field::DialTimes).unwrap_or(1.0);
    let counted = |first, last| Some(entries.si(last)? - entries.si(first).unwrap_or(0.0));
    let (setting, count, measured) = match sheet.method {
        Method::RippleTank => {
            let dial = entries.si(Field::Dial).map(|dial| dial * times);
            let waves = counted(Field::FirstCrest, Field::LastCrest);
            let passes = counted(Field::PassesFirst, Field::PassesLast);
            let fields = [Field::Span, Field::Seconds];
            (Setting([dial, waves, passes]), waves, fields)
        }
        Method::StringLoops => {
            let loops = entries.si(Field::Loops);
            let covered = entries.si(Field::LengthLoops).or(loops);
            let fields = [Field::Dial, Field::Length];
            (Setting([loops, covered, None]), loops.or(covered), fields)
        }
    };
    TakenRow {
        index,
        setting,
        count: count.unwrap_or(1.0),
        readings: measured
            .into_iter()
            .filter_map(|field| reading(entries, field, times))
            .collect(),
    }
}

fn reading(entries: &Entries, field: Field, times: f64) -> Option<Reading> {
    let entry = entries.get(field)?;
    let unit = entry.reading_unit().map_or(1.0, Unit::si);
    let times = if field == Field::Dial { times } else { 1.0 };
    let value = Entry::si(entry) * times;
    let sd = match field {
        Field::Seconds => prior::SECONDS_SD,
        Field::Length => prior::STRING_LENGTH_SD,
        Field::Dial => prior::RESONANCE_SD * value,
        Field::ScaleImage => prior::IMAGE_SD,
        _ => prior::SPAN_SD,
    };
    Some(Reading {
        field,
        value,
        step: entry.figure.resolution() * unit * times,
        fives: 0.0,
        sd,
    })
}

/// A value that rows of different settings have in common was set (an end to
/// end length, ten seconds); one that is another row's in proportion to the
/// count was worked out from it (the second resonance dialled at twice the
/// first), and only the first of them was measured.
fn drop_what_was_chosen(rows: &mut [TakenRow]) {
    let all = rows.to_vec();
    for (at, row) in rows.iter_mut().enumerate() {
        let count = row.count;
        let setting = row.setting;
        let others = || {
            all.iter()
                .enumerate()
                .filter(|(_, other)| other.setting != setting)
        };
        row.readings.retain(|reading| {
            !others().any(|(place, other)| {
                other.readings.iter().any(|theirs| {
                    let in_proportion = is_same(reading.value / count, theirs.value / other.count);
                    theirs.field == reading.field
                        && (theirs.agrees(reading) || (place < at && in_proportion))
                })
            })
        });
    }
}

/// Gives all readings of a field the coarsest step that they share: of the
/// finest digit typed, or 2, 5 or 10 of it where all are multiples of that. Of
/// what is left, one in five falls on five steps by itself.
fn coarsen(rows: &mut [TakenRow], field: Field) {
    let of_field = |reading: &&mut Reading| reading.field == field;
    let readings = rows.iter().flat_map(|row| &row.readings);
    let typed: Vec<_> = readings.filter(|r| r.field == field).copied().collect();
    let finest = typed.iter().fold(f64::INFINITY, |step, r| step.min(r.step));
    let on = |r: &Reading, step: f64| {
        let steps = r.value / step;
        (steps - steps.round()).abs() < 1e-6
    };
    let fits = |factor: &f64| typed.iter().all(|r| on(r, finest * factor));
    let step = finest * [10.0, 5.0, 2.0].into_iter().find(fits).unwrap_or(1.0);
    let on_fives: Vec<f64> = typed
        .iter()
        .map(|r| f64::from(u8::from(on(r, 5.0 * step))))
        .collect();
    let share = mean(&on_fives).unwrap_or(0.0);
    let all = rows.iter_mut().flat_map(|row| &mut row.readings);
    for reading in all.filter(of_field) {
        reading.step = step;
        reading.fives = ((share - 0.2) / 0.8).max(0.0);
    }
}
