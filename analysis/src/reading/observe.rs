//! A sheet as the inference sees it: for each row ln λ as recorded, the
//! frequency, and how well each was read.

use crate::field::Field;
use crate::method::Method;
use crate::sheet::{Entries, Row, Sheet};

use super::prior;

/// A row with all that is needed to judge it.
#[derive(Clone, Debug)]
pub(super) struct Observation {
    /// Index of the row in the sheet.
    pub(super) row: usize,
    /// As recorded, Hz.
    pub(super) frequency: f64,
    /// ln of the recorded wavelength in m, on the water or along the string.
    pub(super) ln_wavelength: f64,
    /// The span on the screen, or the length along the string, m.
    pub(super) length: f64,
    /// Waves in the span, or loops in the length, as recorded.
    pub(super) waves: f64,
    /// Standard deviation of the length, a share, at κ = 1.
    pub(super) length_share: f64,
    /// Standard deviation of the frequency, a share, at κ = 1.
    pub(super) frequency_share: f64,
}

/// The whole length of the string as one row has it: loops seen × length of a
/// loop. It is the same in every row, and tells of loops that were miscounted
/// where the measured length does not cover all of them.
#[derive(Clone, Debug)]
pub(super) struct Total {
    /// Index of the row in the sheet.
    pub(super) row: usize,
    /// ln of it, in m.
    pub(super) ln_length: f64,
    /// Loops seen, as recorded.
    pub(super) loops: f64,
    /// Standard deviation, a share, at κ = 1.
    pub(super) share: f64,
}

/// The two lengths of the known object, m.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    pub(super) image: f64,
    pub(super) true_length: f64,
}

/// A sheet's readings. Residuals are numbered: rows first, then totals.
#[derive(Clone, Debug)]
pub(super) struct Observed {
    pub(super) method: Method,
    pub(super) rows: Vec<Observation>,
    pub(super) totals: Vec<Total>,
    pub(super) scale: Option<Scale>,
    /// Standard deviation of the enlargement, a share, at κ = 1.
    pub(super) level_share: f64,
}

impl Observed {
    /// Rows that lack a frequency or a wavelength are left out.
    pub(super) fn of(sheet: &Sheet) -> Self {
        let (image, true_length) = (
            sheet.whole.si(Field::ScaleImage),
            sheet.whole.si(Field::ScaleTrue),
        );
        let scale = match (image, true_length) {
            (Some(image), Some(true_length)) => Some(Scale { image, true_length }),
            _ => None,
        };
        let is_half_given = image.is_some() != true_length.is_some();
        let magnification = scale.map_or(1.0, |s| s.image / s.true_length);
        let rows = sheet.rows.iter().enumerate().filter_map(|(at, row)| {
            if is_half_given {
                return None;
            }
            observation(sheet.method, at, row, magnification)
        });
        Self {
            method: sheet.method,
            rows: rows.collect(),
            totals: totals(sheet),
            scale,
            level_share: scale.map_or(0.0, |s| {
                (prior::IMAGE_SD / s.image).hypot(prior::TRUE_SD / s.true_length)
            }),
        }
    }

    /// How many residuals it has.
    pub(super) fn len(&self) -> usize {
        self.rows.len() + self.totals.len()
    }

    /// The residual of a total, by its place among the totals.
    pub(super) fn of_total(&self, at: usize) -> usize {
        self.rows.len() + at
    }
}

fn observation(method: Method, at: usize, row: &Row, magnification: f64) -> Option<Observation> {
    let (frequency, frequency_share) = frequency(method, &row.entries)?;
    let (length, waves, sd) = match method {
        Method::RippleTank => (
            row.entries.si(Field::Span)?,
            count(&row.entries, Field::FirstCrest, Field::LastCrest)?,
            prior::SPAN_SD,
        ),
        Method::StringLoops => (
            row.entries.si(Field::Length)?,
            loops_in_length(&row.entries)?,
            prior::STRING_LENGTH_SD,
        ),
    };
    let wavelength = match method {
        Method::RippleTank => length / waves / magnification,
        Method::StringLoops => 2.0 * length / waves,
    };
    Some(Observation {
        row: at,
        frequency,
        ln_wavelength: wavelength.ln(),
        length,
        waves,
        length_share: sd / length,
        frequency_share,
    })
}

/// f in Hz, and its standard deviation as a share beside the dial's own
/// factor.
fn frequency(method: Method, entries: &Entries) -> Option<(f64, f64)> {
    let resonance = match method {
        Method::RippleTank => 0.0,
        Method::StringLoops => prior::RESONANCE_SD,
    };
    if let Some(dial) = entries.get(Field::Dial) {
        let times = entries.si(Field::DialTimes).unwrap_or(1.0);
        // Uniform over one unit of the last digit: half-width over √3 (GUM,
        // JCGM 100:2008, 4.3.7).
        let last_digit = dial.figure.resolution() / (12.0_f64.sqrt() * dial.si());
        return Some((dial.si() * times, last_digit.hypot(resonance)));
    }
    let passes = count(entries, Field::PassesFirst, Field::PassesLast)?;
    let seconds = entries.si(Field::Seconds)?;
    let share = (prior::PASSES_SD / passes).hypot(prior::SECONDS_SD / seconds);
    Some((passes / seconds, share.hypot(resonance)))
}

fn count(entries: &Entries, first: Field, last: Field) -> Option<f64> {
    Some(entries.si(last)? - entries.si(first).unwrap_or(0.0))
}

fn loops_in_length(entries: &Entries) -> Option<f64> {
    entries
        .si(Field::LengthLoops)
        .or_else(|| entries.si(Field::Loops))
}

/// Only where some row measured fewer loops than it saw: else the whole length
/// is the measured one, and says nothing of the loops.
fn totals(sheet: &Sheet) -> Vec<Total> {
    let seen = |row: &Row| row.entries.si(Field::Loops);
    let differs = |row: &Row| {
        let (seen, covered) = (seen(row), loops_in_length(&row.entries));
        matches!((seen, covered), (Some(seen), Some(covered)) if (seen - covered).abs() > 0.5)
    };
    if sheet.method != Method::StringLoops || !sheet.rows.iter().any(differs) {
        return Vec::new();
    }
    let total = |(at, row): (usize, &Row)| {
        let (loops, length) = (seen(row)?, row.entries.si(Field::Length)?);
        let covered = loops_in_length(&row.entries)?;
        Some(Total {
            row: at,
            ln_length: (loops * length / covered).ln(),
            loops,
            share: prior::STRING_LENGTH_SD / length,
        })
    };
    sheet.rows.iter().enumerate().filter_map(total).collect()
}
