//! Whether a slip would bring the rows nearer to where they should be: only
//! then is it worth trying.

use crate::method::model::Usual;
use crate::method::model::observe::{Observation, Observed, Total};
use crate::method::model::part::{Change, Part};
use crate::stats::spread;

/// How near a slip would bring the rows to where they should be.
pub(super) struct Near<'o> {
    seen: &'o Observed,
    usual: &'o Usual<'o>,
    /// Of rows about the reference, of totals about their median.
    residuals: Vec<f64>,
    /// Where most rows lie.
    typical: f64,
}

/// A whole sheet further off than this is not mended (a lamp's fault and a
/// bent curve leave less).
const WHOLE_REACH: f64 = 0.45;

/// A row's slip is tried if it leaves the row nearer to the others, or further
/// by no more than this.
const ROW_REACH: f64 = 0.06;

impl<'o> Near<'o> {
    pub(super) fn new(seen: &'o Observed, usual: &'o Usual<'o>) -> Self {
        let of_row = |row: &Observation| row.ln_wavelength - (usual.ln_wavelength)(row.frequency).0;
        let mut residuals: Vec<_> = seen.rows.iter().map(of_row).collect();
        let typical = typical(&residuals);
        let of_total = |total: &Total| total.ln_length - seen.ln_total;
        residuals.extend(seen.measured().map(of_total));
        Self {
            seen,
            usual,
            residuals,
            typical,
        }
    }

    pub(super) fn whole(&self, part: &Part) -> bool {
        let rows = self.seen.rows.len();
        let mut mended = self.residuals[..rows].to_vec();
        match &part.change {
            Change::Shift(shifts) => {
                for (at, by) in shifts.iter().filter(|(at, _)| *at < rows) {
                    mended[*at] += by;
                }
            }
            Change::AllFrequencies(times) => {
                for (residual, row) in mended.iter_mut().zip(&self.seen.rows) {
                    *residual =
                        row.ln_wavelength - (self.usual.ln_wavelength)(row.frequency * times).0;
                }
            }
            Change::Frequency(..) | Change::Zero(_) => {}
            // A factor that nobody knows may bring any level back.
            Change::Factor { .. } => return true,
        }
        !self.usual.is_level_known || median(&mended).abs() < WHOLE_REACH
    }

    /// Whether no row is anywhere near: then it is not single rows that are
    /// out.
    pub(super) fn is_all_far(&self) -> bool {
        let rows = &self.residuals[..self.seen.rows.len()];
        self.usual.is_level_known && rows.iter().all(|row| row.abs() > WHOLE_REACH)
    }

    /// How much further off the slip leaves what it touches; `None` where it
    /// is not worth trying.
    pub(super) fn single(&self, part: &Part) -> Option<f64> {
        match &part.change {
            Change::Frequency(at, times) => {
                let row = &self.seen.rows[*at];
                let mended =
                    row.ln_wavelength - (self.usual.ln_wavelength)(row.frequency * times).0;
                self.further(&[(*at, mended)])
            }
            Change::Shift(shifts) => {
                let mended = shifts
                    .iter()
                    .map(|(at, by)| (*at, self.residuals[*at] + by));
                self.further(&mended.collect::<Vec<_>>())
            }
            Change::AllFrequencies(_) | Change::Zero(_) | Change::Factor { .. } => None,
        }
    }

    /// Rows are set against where most of them lie, and where they should lie
    /// if that is known: on a sheet with two slips the two may differ.
    fn further(&self, mended: &[(usize, f64)]) -> Option<f64> {
        let expected = self.usual.is_level_known.then_some(0.0);
        let centres = [Some(self.typical), expected].into_iter().flatten();
        let about = |centre: f64| {
            let (mut further, mut slack) = (0.0, ROW_REACH);
            for (at, mended) in mended {
                let row = self.seen.rows.get(*at);
                let centre = row.map_or(0.0, |_| centre);
                slack += row.map_or(0.0, |row| (self.usual.ln_wavelength)(row.frequency).1);
                further += (mended - centre).abs() - (self.residuals[*at] - centre).abs();
            }
            (further < slack).then_some(further)
        };
        centres.filter_map(about).reduce(f64::min)
    }
}

/// Rows that lie within this of each other lie together, ln λ.
const TOGETHER: f64 = 0.1;

/// The mean of the rows round which most lie together; of several such, the
/// one nearest to the median.
fn typical(residuals: &[f64]) -> f64 {
    let median = median(residuals);
    let round = |centre: f64| -> Vec<f64> {
        let near = residuals
            .iter()
            .copied()
            .filter(|r| (r - centre).abs() < TOGETHER);
        near.collect()
    };
    let groups = residuals
        .iter()
        .map(|centre| (round(*centre), (centre - median).abs()));
    let most =
        groups.min_by(|(one, a), (other, b)| other.len().cmp(&one.len()).then(a.total_cmp(b)));
    most.and_then(|(group, _)| spread::mean(&group))
        .unwrap_or(median)
}

fn median(values: &[f64]) -> f64 {
    spread::median(values).unwrap_or(0.0)
}
