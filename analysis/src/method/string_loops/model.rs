//! What may have happened to readings on a string, and what its masses lead
//! one to expect.

use crate::cause::Cause;
use crate::entry::{Entries, Row};
use crate::field::Field;
use crate::method::model::observe::{Error, Observation, Observed, Seen, Total, observation};
use crate::method::model::part::{Change, Mend, Part};
use crate::method::model::state::{Cell, Fault, OneSpeed, SOUND, States, levels};
use crate::method::model::{Model, Recorded, Setting, Usual};
use crate::method::prior::{self, rate};
use crate::stats::spread;
use crate::wave::{G_STANDARD, string};

use super::SPEC;
use super::chain::loops_in_length;

/// A string with a mass on it.
#[derive(Debug)]
pub(super) struct Cord;

impl Model for Cord {
    /// √(T/μ) where the masses were recorded.
    fn expected_speed(&self, whole: &Entries, _: f64) -> Option<f64> {
        foretold(whole)
    }

    fn setting(&self, row: &Entries) -> Setting {
        let loops = row.si(Field::Loops);
        let covered = row.si(Field::LengthLoops).or(loops);
        Setting {
            chosen: [loops, covered, None],
            count: loops.or(covered),
            measured: [Field::Dial, Field::Length],
        }
    }

    fn observe(&self, _: &Entries, rows: &[Row]) -> Observed {
        let seen = rows.iter().enumerate().filter_map(|(at, row)| {
            let loops = loops_in_length(&row.entries)?;
            // A loop is half a wave.
            let length = (row.entries.get(Field::Length)?, loops, 0.5);
            let errors = (prior::STRING_LENGTH_SD, prior::RESONANCE_SD);
            observation(at, &row.entries, length, errors)
        });
        let mut seen: Vec<_> = seen.collect();
        let totals = totals(rows, &seen);
        let ln_lengths: Vec<_> = totals.iter().map(|total| total.ln_length).collect();
        let ln_total = spread::median(&ln_lengths).unwrap_or(0.0);
        for total in &totals {
            let row = &mut seen[total.of];
            row.ln_wavelength = 2.0_f64.ln() + ln_total - total.loops.ln();
            row.length_error = Error::default();
        }
        Observed {
            rows: seen,
            totals,
            ln_total,
            length: SPEC.length,
            is_dispersive: SPEC.is_dispersive,
            ..Observed::default()
        }
    }

    /// The speed that its masses foretell.
    fn recorded(&self, whole: &Entries) -> Option<Recorded> {
        foretold(whole).map(|value| Recorded { value, digit: 0.0 })
    }

    fn usual<'m>(&self, speed: Option<Recorded>, seen: &'m Observed) -> Usual<'m> {
        let ln_speed = speed.map_or_else(|| median_ln_speed(seen), |speed| speed.value.ln());
        Usual {
            ln_wavelength: Box::new(move |f| (ln_speed - f.ln(), 0.0)),
            is_level_known: speed.is_some(),
        }
    }

    fn states(&self, speed: Option<Recorded>, is_shared: bool) -> States {
        let median = speed.map_or(prior::STRING_SPEED_MEDIAN, |speed| speed.value);
        States {
            curves: vec![Box::new(OneSpeed(median.ln()))],
            cells: cells(speed.is_some(), is_shared),
        }
    }

    /// One loop too many in every row: in the measured length too where that
    /// covers all loops.
    fn wholes(&self, sheet: &Seen<'_>) -> Vec<Part> {
        let rows = 0..sheet.seen.rows.len();
        let shifts: Option<Vec<_>> = rows.map(|at| loops_seen(sheet.seen, at, -1.0)).collect();
        let part = |shifts: Vec<Vec<(usize, f64)>>| {
            Part::whole(
                Cause::NodesCountedAsLoops,
                Field::Loops,
                Change::Shift(shifts.concat()),
                Mend::Count(-1.0),
                rate::NODES_COUNTED,
            )
        };
        shifts.map(part).into_iter().collect()
    }

    fn miscounts(&self, sheet: &Seen<'_>, at: usize) -> Vec<Part> {
        miscounts(sheet, at)
    }

    fn look_alike(&self) -> &'static [(Cause, Cause)] {
        &[(Cause::StringStretched, Cause::DialOff)]
    }
}

fn foretold(whole: &Entries) -> Option<f64> {
    let hung = whole.si(Field::HangingMass)?;
    let mass = whole.si(Field::StringMass)?;
    let length = whole.si(Field::StringLength)?;
    Some(string::speed(hung, mass, length, G_STANDARD))
}

fn median_ln_speed(seen: &Observed) -> f64 {
    let of_row = |row: &Observation| row.ln_wavelength + row.frequency.ln();
    let speeds: Vec<_> = seen.rows.iter().map(of_row).collect();
    spread::median(&speeds).unwrap_or(0.0)
}

/// What so many loops more or fewer seen in a row would change: its wavelength,
/// and, where the measured length does not cover all loops, the whole length.
/// `None` where no loop would remain.
fn loops_seen(seen: &Observed, at: usize, by: f64) -> Option<Vec<(usize, f64)>> {
    let row = &seen.rows[at];
    let total = seen.total_of(at);
    let loops = total.map_or(row.waves, |total| total.loops);
    if loops + by < 0.5 {
        return None;
    }
    let shift = ((loops + by) / loops).ln();
    let mut shifts = vec![(at, -shift)];
    let residual = total.and_then(|total| total.residual);
    if let Some(residual) = residual.filter(|_| !seen.covers_all(at)) {
        shifts.push((residual, shift));
    }
    Some(shifts)
}

/// One loop too many or too few in a row: of those seen, or of those in the
/// measured length where the two were counted apart.
fn miscounts(sheet: &Seen<'_>, at: usize) -> Vec<Part> {
    let seen = sheet.seen;
    let row = &seen.rows[at];
    let part = |step, by: f64, shifts| {
        Part::whole(
            Cause::LoopMiscount,
            step,
            Change::Shift(shifts),
            Mend::Count(by),
            rate::LOOP_MISCOUNT_ROW / 2.0,
        )
        .of_row(row.row)
    };
    let step = match sheet.entries(at).get(Field::Loops) {
        None => Field::LengthLoops,
        Some(_) => Field::Loops,
    };
    let total = seen.total_of(at).and_then(|total| total.residual);
    let apart = total.filter(|_| !seen.covers_all(at));
    let mut parts = Vec::new();
    for by in [-1.0, 1.0] {
        let shifts = loops_seen(seen, at, by);
        parts.extend(shifts.map(|shifts| part(step, by, shifts)));
        if let Some(total) = apart.filter(|_| row.waves + by > 0.5) {
            let shift = (row.waves / (row.waves + by)).ln();
            parts.push(part(Field::LengthLoops, by, vec![(total, shift)]));
        }
    }
    parts
}

/// Totals that agree within this are of one length, ln.
const ONE_LENGTH: f64 = 0.02;

/// Totals of rows that have both loops and a length. Where every length covers
/// all loops, a group may have moved the string's end between rows: then the
/// totals speak only if most of them agree.
fn totals(sheet: &[Row], rows: &[Observation]) -> Vec<Total> {
    let total = |(of, row): (usize, &Observation)| {
        let loops = sheet[row.row].entries.si(Field::Loops)?;
        Some(Total {
            of,
            ln_length: (loops * row.length / row.waves).ln(),
            loops,
            error: row.length_error,
            residual: None,
        })
    };
    let mut totals: Vec<_> = rows.iter().enumerate().filter_map(total).collect();
    let mut residuals = rows.len()..;
    for at in 0..totals.len() {
        let copied = |earlier: &Total| (earlier.ln_length - totals[at].ln_length).abs() < 1e-9;
        if !totals[..at].iter().any(copied) {
            totals[at].residual = residuals.next();
        }
    }
    let covers_fewer = |total: &Total| (total.loops - rows[total.of].waves).abs() > 0.5;
    let ln_lengths: Vec<_> = totals.iter().map(|total| total.ln_length).collect();
    let median = spread::median(&ln_lengths).unwrap_or(0.0);
    let alike = ln_lengths
        .iter()
        .filter(|ln| (*ln - median).abs() < ONE_LENGTH);
    let most_agree = totals.len() > 2 && 3 * alike.count() >= 2 * totals.len();
    if most_agree || totals.iter().any(covers_fewer) {
        totals
    } else {
        Vec::new()
    }
}

/// Faults that no sheet of a string parts: in its readings the dial is like
/// the string.
const OFF: [Fault; 2] = [
    Fault {
        cause: Cause::StringStretched,
        step: Field::HangingMass,
        share: prior::STRING_NOT_DIAL,
    },
    Fault {
        cause: Cause::DialOff,
        step: Field::Dial,
        share: 1.0 - prior::STRING_NOT_DIAL,
    },
];

fn cells(is_foretold: bool, is_shared: bool) -> Vec<Cell> {
    if !is_foretold {
        // A speed of which nothing is known cannot be wrong.
        return levels(prior::UNKNOWN_STRING_SPEED_SD, is_shared, SOUND);
    }
    let share = 2.0 * prior::APPARATUS;
    let sound = Cell {
        weight: 1.0 - share,
        ..SOUND
    };
    let off = Cell {
        weight: share,
        faults: &OFF,
        ..SOUND
    };
    let mut cells = levels(prior::STRING_SPEED_SD, is_shared, sound);
    cells.extend(levels(prior::STRING_OFF_SD, is_shared, off));
    cells
}
