//! A sheet as the inference sees it: for each row ln λ as recorded, the
//! frequency, and how well each was read.

use crate::field::Field;
use crate::method::Method;
use crate::sheet::{Entries, Entry, Row, Sheet};
use crate::stats::spread;

use super::prior;

/// A row with all that is needed to judge it.
#[derive(Clone, Debug)]
pub(super) struct Observation {
    /// Index of the row in the sheet.
    pub(super) row: usize,
    /// As recorded, Hz.
    pub(super) frequency: f64,
    /// ln of the wavelength in m, on the water or along the string: as
    /// recorded, or, where there is a total, that of its loops in the string's
    /// whole length.
    pub(super) ln_wavelength: f64,
    /// ln of the wavelength as recorded, m.
    pub(super) ln_recorded: f64,
    /// The span on the screen, or the length along the string, m.
    pub(super) length: f64,
    /// Waves in the span, or loops in the length, as recorded.
    pub(super) waves: f64,
    pub(super) length_error: Error,
    pub(super) frequency_error: Error,
}

/// How well something was read: standard deviations, as shares of it.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Error {
    /// Of reading it, at κ = 1; it grows with κ.
    pub(super) reading: f64,
    /// Of writing it down to its last digit; it does not.
    pub(super) rounding: f64,
}

impl Error {
    /// An error as large as the reading is the largest there is: no less can
    /// be known.
    fn of(reading: f64, rounding: f64) -> Self {
        Self {
            reading: reading.min(1.0),
            rounding: rounding.min(1.0),
        }
    }

    /// Its variance at a scatter κ.
    pub(super) fn variance(self, kappa: f64) -> f64 {
        let reading = kappa * self.reading;
        reading * reading + self.rounding * self.rounding
    }
}

/// Uniform over one unit of the last digit: half-width over √3 (GUM, JCGM
/// 100:2008, 4.3.7), as a share of the figure.
fn last_digit(entry: &Entry) -> f64 {
    entry.figure.resolution() / (12.0_f64.sqrt() * entry.figure.value().abs())
}

/// The whole length of the string as one row has it: loops seen × length of a
/// loop. It is the same in every row, and tells of lengths and loops that are
/// out whatever the frequency.
#[derive(Clone, Debug)]
pub(super) struct Total {
    /// Index of its row among the observations.
    pub(super) of: usize,
    /// ln of it, in m.
    pub(super) ln_length: f64,
    /// Loops seen, as recorded.
    pub(super) loops: f64,
    pub(super) error: Error,
    /// Its residual, after those of the rows; `None` where it repeats an
    /// earlier one to the last digit: a length that was measured once and
    /// copied down is one reading.
    pub(super) residual: Option<usize>,
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
    /// ln of the string's whole length, m, by the median of the totals.
    pub(super) ln_total: f64,
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
        let mut rows: Vec<_> = rows.collect();
        let totals = totals(sheet, &rows);
        let ln_lengths: Vec<_> = totals.iter().map(|total| total.ln_length).collect();
        let ln_total = spread::median(&ln_lengths).unwrap_or(0.0);
        for total in &totals {
            let row = &mut rows[total.of];
            row.ln_wavelength = 2.0_f64.ln() + ln_total - total.loops.ln();
            row.length_error = Error::default();
        }
        Self {
            method: sheet.method,
            rows,
            totals,
            ln_total,
            scale,
            level_share: scale.map_or(0.0, |s| {
                let image = Error::of(prior::IMAGE_SD / s.image, 0.0);
                let true_length = Error::of(prior::TRUE_SD / s.true_length, 0.0);
                image.reading.hypot(true_length.reading)
            }),
        }
    }

    /// How many residuals it has.
    pub(super) fn len(&self) -> usize {
        self.rows.len() + self.measured().count()
    }

    /// The totals that are readings of their own, in the order of their
    /// residuals.
    pub(super) fn measured(&self) -> impl Iterator<Item = &Total> {
        self.totals.iter().filter(|total| total.residual.is_some())
    }

    /// The total of a row, if there is one.
    pub(super) fn total_of(&self, row: usize) -> Option<&Total> {
        self.totals.iter().find(|total| total.of == row)
    }
}

fn observation(method: Method, at: usize, row: &Row, magnification: f64) -> Option<Observation> {
    let (frequency, frequency_error) = frequency(method, &row.entries)?;
    let (length, waves, sd) = match method {
        Method::RippleTank => (
            row.entries.get(Field::Span)?,
            count(&row.entries, Field::FirstCrest, Field::LastCrest)?,
            prior::SPAN_SD,
        ),
        Method::StringLoops => (
            row.entries.get(Field::Length)?,
            loops_in_length(&row.entries)?,
            prior::STRING_LENGTH_SD,
        ),
    };
    let length_error = Error::of(sd / length.si(), last_digit(length));
    let length = length.si();
    let wavelength = match method {
        Method::RippleTank => length / waves / magnification,
        Method::StringLoops => 2.0 * length / waves,
    };
    Some(Observation {
        row: at,
        frequency,
        ln_wavelength: wavelength.ln(),
        ln_recorded: wavelength.ln(),
        length,
        waves,
        length_error,
        frequency_error,
    })
}

/// f in Hz, and how well it was read beside the dial's own factor.
fn frequency(method: Method, entries: &Entries) -> Option<(f64, Error)> {
    let resonance = match method {
        Method::RippleTank => 0.0,
        Method::StringLoops => prior::RESONANCE_SD,
    };
    if let Some(dial) = entries.get(Field::Dial) {
        let times = entries.si(Field::DialTimes).unwrap_or(1.0);
        let last_digit = last_digit(dial);
        let error = Error::of(last_digit.hypot(resonance), last_digit);
        return Some((dial.si() * times, error));
    }
    let passes = count(entries, Field::PassesFirst, Field::PassesLast)?;
    let seconds = entries.get(Field::Seconds)?;
    let counting = (prior::PASSES_SD / passes).hypot(prior::SECONDS_SD / seconds.si());
    let error = Error::of(counting.hypot(resonance), last_digit(seconds));
    Some((passes / seconds.si(), error))
}

fn count(entries: &Entries, first: Field, last: Field) -> Option<f64> {
    Some(entries.si(last)? - entries.si(first).unwrap_or(0.0))
}

fn loops_in_length(entries: &Entries) -> Option<f64> {
    entries
        .si(Field::LengthLoops)
        .or_else(|| entries.si(Field::Loops))
}

/// Totals that agree within this are of one length, ln.
const ONE_LENGTH: f64 = 0.02;

/// Totals of rows that have both loops and a length. Where every length covers
/// all loops, a group may have moved the string's end between rows: then the
/// totals speak only if most of them agree.
fn totals(sheet: &Sheet, rows: &[Observation]) -> Vec<Total> {
    if sheet.method != Method::StringLoops {
        return Vec::new();
    }
    let total = |(of, row): (usize, &Observation)| {
        let loops = sheet.rows[row.row].entries.si(Field::Loops)?;
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
