//! One thing that may have happened to a sheet's readings: what it did to
//! ln λ, and what the readings would be without it.

use crate::cause::Cause;
use crate::field::{Field, Place};

use super::observe::Observed;

/// What a slip did to the residuals: what mending adds to them.
#[derive(Clone, Debug)]
pub(crate) enum Change {
    /// ln λ (or ln of the whole string) of these residuals.
    Shift(Vec<(usize, f64)>),
    /// The frequency of every row was this many times as high.
    AllFrequencies(f64),
    /// That of one row was.
    Frequency(usize, f64),
    /// Every span is too long by about this much, m.
    Zero(f64),
    /// Every wavelength is too long by one factor that nobody knows: ln of its
    /// median, and the standard deviation of ln.
    Factor { ln: f64, sd: f64 },
}

impl Change {
    /// The same shift in every row.
    pub(crate) fn everywhere(seen: &Observed, by: f64) -> Self {
        Self::Shift((0..seen.rows.len()).map(|at| (at, by)).collect())
    }

    /// The frequency of every row, or of one, was so many times as high. Where
    /// all waves are equally fast that is a shift.
    pub(crate) fn frequency(seen: &Observed, at: Option<usize>, times: f64) -> Self {
        match (seen.is_dispersive, at) {
            (true, None) => Self::AllFrequencies(times),
            (true, Some(at)) => Self::Frequency(at, times),
            (false, None) => Self::everywhere(seen, times.ln()),
            (false, Some(at)) => Self::Shift(vec![(at, times.ln())]),
        }
    }
}

/// What a mended reading would read.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Mend {
    /// This many waves or loops more (or fewer) in the row, or in every row.
    Count(f64),
    /// Half as many waves in every row.
    HalfCount,
    /// The figure typed so, and how many times as large that is.
    Text(String, f64),
    /// The dial's multiplier.
    Multiplier(f64),
    /// The two lengths of the known object in each other's place.
    Swap,
    /// No one figure.
    Nothing,
}

/// One slip, of a row or of the whole sheet.
#[derive(Clone, Debug)]
pub(crate) struct Part {
    pub(crate) cause: Cause,
    /// Index of the row in the sheet.
    pub(crate) row: Option<usize>,
    pub(crate) step: Field,
    pub(crate) change: Change,
    pub(crate) mend: Mend,
    /// Its prior odds against *no slip*.
    pub(crate) prior: f64,
}

impl Part {
    /// A slip of the whole sheet.
    pub(crate) fn whole(cause: Cause, step: Field, change: Change, mend: Mend, prior: f64) -> Self {
        Self {
            cause,
            row: None,
            step,
            change,
            mend,
            prior,
        }
    }

    /// The same in one row alone, by its index in the sheet.
    pub(crate) fn of_row(self, row: usize) -> Self {
        Self {
            row: Some(row),
            ..self
        }
    }

    /// How many times as high the frequency of a row is once mended.
    pub(crate) fn frequency_times(&self) -> f64 {
        match (&self.change, &self.mend) {
            (_, Mend::Multiplier(times)) | (Change::AllFrequencies(times), _) => *times,
            (_, Mend::Text(_, ratio)) if self.step == Field::Dial => *ratio,
            (_, Mend::Text(_, ratio)) if self.step == Field::Seconds => ratio.recip(),
            _ => 1.0,
        }
    }

    /// What mending adds to ln of a row's own wavelength.
    pub(crate) fn wavelength_shift(&self, seen: &Observed, at: usize) -> f64 {
        let row = &seen.rows[at];
        match (&self.change, &self.mend) {
            // Loops seen tell nothing of a wavelength that was measured on fewer.
            (_, Mend::Count(_)) if self.step == Field::Loops && !seen.covers_all(at) => 0.0,
            (_, Mend::Count(by)) => (row.waves / (row.waves + by)).ln(),
            (_, Mend::HalfCount) => 2.0_f64.ln(),
            (_, Mend::Text(_, ratio)) if self.step == seen.length => ratio.ln(),
            (Change::Zero(zero), _) => (1.0 - zero / row.length).ln(),
            // What concerns the enlargement is the same shift for every row.
            (Change::Shift(shifts), Mend::Text(..) | Mend::Swap)
                if self.step.place() == Place::Sheet =>
            {
                shifts.first().map_or(0.0, |(_, by)| *by)
            }
            _ => 0.0,
        }
    }
}
