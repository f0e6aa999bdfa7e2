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

mod count;
mod multiplier;
mod near;
mod swap;
mod water;
mod working;

use crate::field::Field;
use crate::method::Method;
use crate::sheet::{Entries, Sheet};

use super::cause::Cause;
use super::observe::Observed;
use super::prior;

pub(super) use count::covers_all;
use near::Near;
pub(super) use near::Reference;

/// Single-row slips that are tried, at most.
const MOST_SINGLES: usize = 16;

/// What a slip did to the residuals: what mending adds to them.
#[derive(Clone, Debug)]
pub(super) enum Change {
    /// ln λ (or ln of the whole string) of these residuals.
    Shift(Vec<(usize, f64)>),
    /// The frequency of every row was this many times as high.
    AllFrequencies(f64),
    /// That of one row was.
    Frequency(usize, f64),
    /// Every span is too long by about this much, m.
    Zero(f64),
}

/// What a mended reading would read.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Mend {
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
pub(super) struct Part {
    pub(super) cause: Cause,
    /// Index of the row in the sheet.
    pub(super) row: Option<usize>,
    pub(super) step: Field,
    pub(super) change: Change,
    pub(super) mend: Mend,
    /// Its prior odds against *no slip*.
    pub(super) prior: f64,
}

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
pub(super) fn hypotheses(sheet: &Sheet, seen: &Observed, reference: &Reference<'_>) -> Hypotheses {
    let mut wholes = match seen.method {
        Method::RippleTank => water::wholes(sheet, seen),
        Method::StringLoops => count::nodes_counted(seen).into_iter().collect(),
    };
    wholes.extend(multiplier::of_sheet(sheet, seen));
    let mut singles: Vec<_> = (0..seen.rows.len())
        .flat_map(|at| {
            let mut parts = count::miscounts(sheet, seen, at);
            parts.extend(swap::of_row(sheet, seen, at));
            parts.extend(multiplier::of_row(sheet, seen, at));
            for part in &mut parts {
                part.prior *= working::support(sheet, seen, at, part);
            }
            parts
        })
        .collect();
    let near = Near::new(seen, reference);
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

fn entries<'s>(sheet: &'s Sheet, seen: &Observed, at: usize) -> &'s Entries {
    &sheet.rows[seen.rows[at].row].entries
}

fn whole(cause: Cause, step: Field, change: Change, mend: Mend, prior: f64) -> Part {
    Part {
        cause,
        row: None,
        step,
        change,
        mend,
        prior,
    }
}

/// The same shift in every row.
fn everywhere(seen: &Observed, by: f64) -> Change {
    Change::Shift((0..seen.rows.len()).map(|at| (at, by)).collect())
}

/// The frequency of every row, or of one, was so many times as high. On a
/// string that is a shift.
fn frequency_change(seen: &Observed, at: Option<usize>, times: f64) -> Change {
    match (seen.method, at) {
        (Method::RippleTank, None) => Change::AllFrequencies(times),
        (Method::RippleTank, Some(at)) => Change::Frequency(at, times),
        (Method::StringLoops, None) => everywhere(seen, times.ln()),
        (Method::StringLoops, Some(at)) => Change::Shift(vec![(at, times.ln())]),
    }
}
