//! What a slip leaves of the misfit once it is mended, and the speed that the
//! sheet would then stand for.

use statrs::distribution::{ChiSquared, ContinuousCDF};

use crate::method::model::part::{Change, Part};
use crate::method::prior;
use crate::stats::{line, spread};

use super::Mended;
use super::likelihood::Joint;
use super::posterior::{Peak, Posterior};

/// How far off the readings are, as they stand and mended: shares of λ.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Fit {
    /// For a row, against what the others lead one to expect; for a sheet, its
    /// median row against the physics.
    pub(super) before: f64,
    pub(super) after: f64,
    /// Whether the mended rows agree with the physics and with each other.
    is_in_line: bool,
}

/// Rows that scatter as they should lie beyond this once in twenty sheets.
const IN_LINE: f64 = 0.95;

/// The misfit at the state in which a slip (or, without one, a fault) is most
/// probable.
pub(super) fn fit(posterior: &Posterior<'_>, peak: Peak, part: Option<&Part>) -> Fit {
    let case = posterior.case;
    let cell = &posterior.states.cells[peak.cell];
    let kappa = prior::SCATTER[peak.scatter];
    let joint = |times| {
        let mut residuals = Vec::new();
        let expected = case.expected(posterior.curves, cell, times);
        case.residuals(&expected, cell, kappa, &mut residuals);
        let mut joint = Joint::default();
        joint.set(&residuals);
        let values: Vec<_> = residuals.iter().map(|residual| residual.value).collect();
        (joint, values)
    };
    let (as_written, values) = joint(1.0);
    let rows = case.seen.rows.len();
    let typical = |values: &[f64]| spread::median(&values[..rows]).unwrap_or(0.0);
    let is_known = |part: &&Part| !matches!(part.change, Change::Factor { .. });
    let Some(part) = part.filter(is_known) else {
        // A fault's own level is in its cell: without it, the rows show it.
        let before = typical(&values) + cell.level + cell.dial;
        return Fit {
            before: before.exp_m1(),
            after: typical(&values).exp_m1(),
            is_in_line: true,
        };
    };
    let (mended, mended_values, shifts) = match part.change {
        Change::AllFrequencies(times) => {
            let (joint, values) = joint(times);
            (joint, values, Vec::new())
        }
        _ => {
            let shifts = case.shifts(posterior.curves, cell, part);
            let mut values = values.clone();
            for (at, by) in &shifts {
                values[*at] += by;
            }
            (as_written.clone(), values, shifts)
        }
    };
    let at = shifts
        .first()
        .map(|(at, _)| *at)
        .filter(|_| part.row.is_some());
    let (before, after) = match at {
        Some(at) => (
            as_written.deviations(&[])[at],
            mended.deviations(&shifts)[at],
        ),
        None => (typical(&values), typical(&mended_values)),
    };
    Fit {
        before: before.exp_m1(),
        after: after.exp_m1(),
        is_in_line: agrees(mended.chi_squared(&shifts), case.seen.len()),
    }
}

fn agrees(chi_squared: f64, degrees: usize) -> bool {
    let degrees = f64::from(u32::try_from(degrees).unwrap_or(u32::MAX));
    ChiSquared::new(degrees).is_ok_and(|law| law.cdf(chi_squared) <= IN_LINE)
}

/// The sheet's gradient through the origin with one slip mended. `None` where
/// it is not known by how much.
pub(super) fn mended(posterior: &Posterior<'_>, part: &Part, fit: &Fit) -> Option<Mended> {
    if matches!(part.change, Change::Factor { .. }) {
        return None;
    }
    let case = posterior.case;
    let mut points = Vec::new();
    for (at, row) in case.seen.rows.iter().enumerate() {
        if case.sheet.rows[row.row].left_out {
            continue;
        }
        let (mut frequency, mut ln_wavelength) = (row.frequency, row.ln_recorded);
        if part.row.is_none_or(|concerned| concerned == row.row) {
            frequency *= part.frequency_times();
            ln_wavelength += part.wavelength_shift(&case.seen, at);
        }
        points.push(((-ln_wavelength).exp(), frequency));
    }
    Some(Mended {
        speed: line::through_origin(&points)?.slope.value,
        in_line: fit.is_in_line,
    })
}
