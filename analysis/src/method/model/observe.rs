//! A sheet as the inference sees it: for each row ln λ as recorded, the
//! frequency, and how well each was read.

use crate::entry::{Entries, Entry, Row};
use crate::field::Field;
use crate::method::prior;

/// A row with all that is needed to judge it.
#[derive(Clone, Debug)]
pub(crate) struct Observation {
    /// Index of the row in the sheet.
    pub(crate) row: usize,
    /// As recorded, Hz.
    pub(crate) frequency: f64,
    /// ln of the wavelength in m, on the water or along the string: as
    /// recorded, or, where there is a total, that of its loops in the string's
    /// whole length.
    pub(crate) ln_wavelength: f64,
    /// ln of the wavelength as recorded, m.
    pub(crate) ln_recorded: f64,
    /// The span on the screen, or the length along the string, m.
    pub(crate) length: f64,
    /// Waves in the span, or loops in the length, as recorded.
    pub(crate) waves: f64,
    pub(crate) length_error: Error,
    pub(crate) frequency_error: Error,
}

/// How well something was read: standard deviations, as shares of it.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Error {
    /// Of reading it, at κ = 1; it grows with κ.
    pub(crate) reading: f64,
    /// Of writing it down to its last digit; it does not.
    pub(crate) rounding: f64,
}

impl Error {
    /// An error as large as the reading is the largest there is: no less can
    /// be known.
    pub(crate) fn of(reading: f64, rounding: f64) -> Self {
        Self {
            reading: reading.min(1.0),
            rounding: rounding.min(1.0),
        }
    }

    /// Its variance at a scatter κ.
    pub(crate) fn variance(self, kappa: f64) -> f64 {
        let reading = kappa * self.reading;
        reading * reading + self.rounding * self.rounding
    }
}

/// The whole length of the string as one row has it: loops seen × length of a
/// loop. It is the same in every row, and tells of lengths and loops that are
/// out whatever the frequency.
#[derive(Clone, Debug)]
pub(crate) struct Total {
    /// Index of its row among the observations.
    pub(crate) of: usize,
    /// ln of it, in m.
    pub(crate) ln_length: f64,
    /// Loops seen, as recorded.
    pub(crate) loops: f64,
    pub(crate) error: Error,
    /// Its residual, after those of the rows; `None` where it repeats an
    /// earlier one to the last digit: a length that was measured once and
    /// copied down is one reading.
    pub(crate) residual: Option<usize>,
}

/// A sheet's readings. Residuals are numbered: rows first, then totals.
#[derive(Clone, Debug)]
pub(crate) struct Observed {
    pub(crate) rows: Vec<Observation>,
    pub(crate) totals: Vec<Total>,
    /// ln of the string's whole length, m, by the median of the totals.
    pub(crate) ln_total: f64,
    /// The box of a row's length.
    pub(crate) length: Field,
    /// Whether waves of another frequency are faster or slower.
    pub(crate) is_dispersive: bool,
    /// Standard deviation of what the group measured once for all rows (an
    /// enlargement), a share, at κ = 1.
    pub(crate) level_share: f64,
    /// What is left of it however carefully it is measured.
    pub(crate) level_floor: f64,
}

impl Default for Observed {
    /// That of a sheet with nothing to judge by.
    fn default() -> Self {
        Self {
            rows: Vec::new(),
            totals: Vec::new(),
            ln_total: 0.0,
            length: Field::Length,
            is_dispersive: false,
            level_share: 0.0,
            level_floor: 0.0,
        }
    }
}

impl Observed {
    /// How many residuals it has.
    pub(crate) fn len(&self) -> usize {
        self.rows.len() + self.measured().count()
    }

    /// The totals that are readings of their own, in the order of their
    /// residuals.
    pub(crate) fn measured(&self) -> impl Iterator<Item = &Total> {
        self.totals.iter().filter(|total| total.residual.is_some())
    }

    /// The residual that a row's length tells of: a length along the string is
    /// judged by the string's whole length. `None` for one that several rows
    /// have to the last digit, which is not wrong in one of them.
    pub(crate) fn of_length(&self, row: usize) -> Option<usize> {
        self.total_of(row).map_or(Some(row), |total| total.residual)
    }

    /// The total of a row, if there is one.
    pub(crate) fn total_of(&self, row: usize) -> Option<&Total> {
        self.totals.iter().find(|total| total.of == row)
    }

    /// Whether the measured length covers all the loops that were seen, so
    /// that the two counts are one.
    pub(crate) fn covers_all(&self, at: usize) -> bool {
        let total = self.total_of(at);
        total.is_none_or(|total| (total.loops - self.rows[at].waves).abs() < 0.5)
    }
}

/// A sheet beside what is seen of it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Seen<'s> {
    pub(crate) whole: &'s Entries,
    pub(crate) rows: &'s [Row],
    pub(crate) seen: &'s Observed,
}

impl<'s> Seen<'s> {
    /// The boxes of a row that is seen.
    pub(crate) fn entries(&self, at: usize) -> &'s Entries {
        &self.rows[self.seen.rows[at].row].entries
    }
}

/// A row as it is seen: its frequency, and a wavelength that is a length over
/// a number of waves, and over `stretch`. `sd` is the standard deviation of
/// the length (m), `tuning` that of setting the frequency beside reading it.
pub(crate) fn observation(
    row: usize,
    entries: &Entries,
    (length, waves, stretch): (&Entry, f64, f64),
    (sd, tuning): (f64, f64),
) -> Option<Observation> {
    let (frequency, frequency_error) = frequency(entries, tuning)?;
    let length_error = Error::of(sd / length.si(), length.rounding());
    let length = length.si();
    let ln_wavelength = (length / waves / stretch).ln();
    Some(Observation {
        row,
        frequency,
        ln_wavelength,
        ln_recorded: ln_wavelength,
        length,
        waves,
        length_error,
        frequency_error,
    })
}

/// f in Hz, and how well it was read beside the dial's own factor.
fn frequency(entries: &Entries, tuning: f64) -> Option<(f64, Error)> {
    if let Some(dial) = entries.get(Field::Dial) {
        let times = entries.si(Field::DialTimes).unwrap_or(1.0);
        let last_digit = dial.rounding();
        let error = Error::of(last_digit.hypot(tuning), last_digit);
        return Some((dial.si() * times, error));
    }
    let passes = entries.counted(Field::PassesFirst, Field::PassesLast)?;
    let seconds = entries.get(Field::Seconds)?;
    let counting = (prior::PASSES_SD / passes).hypot(prior::SECONDS_SD / seconds.si());
    let error = Error::of(counting.hypot(tuning), seconds.rounding());
    Some((passes / seconds.si(), error))
}
