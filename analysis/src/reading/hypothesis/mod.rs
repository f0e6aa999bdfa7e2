//! What may have happened to a sheet's readings, and what each would have done
//! to ln λ.
//!
//! # How many
//! A sheet of n rows has *no slip*, *unexplained*, at most a dozen slips of
//! the whole sheet, a few single-row slips for each row, and pairs of
//! single-row slips on different rows. Slips that cannot bring a row nearer to
//! the others (`near.rs`) are not tried: of a clean sheet hardly any
//! remain. At most [`MOST_SINGLES`] single-row slips are tried, the nearest
//! ones, so pairs are fewer than 120.

mod near;
mod working;

use crate::method::model::observe::{Observed, Seen};
use crate::method::model::part::Part;
use crate::method::model::{Usual, multiplier, swap, unit};
use crate::method::prior;
use crate::sheet::Sheet;

use near::Near;

/// Single-row slips that are tried, at most.
const MOST_SINGLES: usize = 16;

/// All that is tried on one sheet.
#[derive(Clone, Debug, Default)]
pub(super) struct Hypotheses {
    /// Slips of the whole sheet.
    pub(super) wholes: Vec<Part>,
    /// Slips of single rows.
    pub(super) singles: Vec<Part>,
    /// Pairs of those, by index, on different rows.
    pub(super) pairs: Vec<(usize, usize)>,
    /// Prior of *no slip*.
    pub(super) none: f64,
}

impl Hypotheses {
    /// Prior of each column of a table: none, unexplained, wholes, singles,
    /// pairs.
    pub(super) fn priors(&self) -> Vec<f64> {
        let wholes = self.wholes.iter().map(|part| part.prior);
        let singles = self.singles.iter().map(|part| part.prior);
        let both =
            |(one, other): &(usize, usize)| self.singles[*one].prior * self.singles[*other].prior;
        let odds = wholes.chain(singles).chain(self.pairs.iter().map(both));
        [self.none, prior::LEVEL_UNEXPLAINED]
            .into_iter()
            .chain(odds.map(|odds| self.none * odds))
            .collect()
    }

    /// The slips of a column, none to two.
    pub(super) fn parts(&self, column: usize) -> Vec<&Part> {
        let Some(at) = column.checked_sub(2) else {
            return Vec::new();
        };
        if let Some(part) = self.wholes.get(at) {
            return vec![part];
        }
        let at = at - self.wholes.len();
        if let Some(part) = self.singles.get(at) {
            return vec![part];
        }
        let pair = self.pairs.get(at - self.singles.len());
        pair.map_or_else(Vec::new, |(one, other)| {
            vec![&self.singles[*one], &self.singles[*other]]
        })
    }
}

/// The slips worth trying on a sheet.
pub(super) fn hypotheses(sheet: &Sheet, seen: &Observed, usual: &Usual<'_>) -> Hypotheses {
    let model = sheet.method.model();
    let beside = Seen {
        whole: &sheet.whole,
        rows: &sheet.rows,
        seen,
    };
    let mut wholes = model.wholes(&beside);
    wholes.extend(multiplier::of_sheet(&beside));
    let spec = sheet.method.spec();
    wholes.extend(unit::of_sheet(&beside, spec, seen.length, 1.0));
    let mut singles: Vec<_> = (0..seen.rows.len())
        .flat_map(|at| {
            let mut parts = model.miscounts(&beside, at);
            parts.extend(swap::of_row(&beside, at));
            parts.extend(unit::of_row(&beside, spec, at));
            parts.extend(multiplier::of_row(&beside, at));
            for part in &mut parts {
                part.prior *= working::support(&beside, at, part);
            }
            parts
        })
        .collect();
    let near = Near::new(seen, usual);
    wholes.retain(|part| near.whole(part));
    if near.is_all_far() {
        singles.clear();
    }
    let mut ranked: Vec<_> = singles
        .drain(..)
        .filter_map(|part| Some((near.single(&part)?, part)))
        .collect();
    ranked.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    ranked.truncate(MOST_SINGLES);
    // Two slips are worth trying only where each mends something by itself.
    let nearer: Vec<_> = ranked.iter().map(|(further, _)| *further < 0.0).collect();
    singles.extend(ranked.into_iter().map(|(_, part)| part));
    let slips: f64 = wholes.iter().chain(&singles).map(|part| part.prior).sum();
    let pairs = (0..singles.len())
        .flat_map(|one| (one + 1..singles.len()).map(move |other| (one, other)))
        .filter(|(one, other)| singles[*one].row != singles[*other].row)
        .filter(|(one, other)| nearer[*one] && nearer[*other])
        .collect();
    Hypotheses {
        none: (1.0 - slips - prior::LEVEL_UNEXPLAINED - prior::ROWS_UNEXPLAINED).max(0.5),
        wholes,
        pairs,
        singles,
    }
}
