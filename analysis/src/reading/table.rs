//! The evidence of every hypothesis about a sheet in every state of its kit, at
//! each scatter.

use crate::method::model::part::{Change, Part};
use crate::method::model::state::{Cell, Point, SOUND, States};
use crate::method::prior;

use super::case::Case;
use super::curve::Curves;
use super::hypothesis::Hypotheses;
use super::likelihood::{Joint, Residual, exp};

/// How many scatters κ are weighed.
pub(super) const SCATTERS: usize = prior::SCATTER.len();

/// The column of *no slip*.
pub(super) const NONE: usize = 0;

/// The column of sheets that are out for no known reason.
pub(super) const UNEXPLAINED: usize = 1;

/// e to this is nothing beside the best hypothesis in its best state.
const NOTHING: f64 = -60.0;

/// Evidence times prior of each hypothesis, by cell, scatter and column;
/// relative to the largest of all.
///
/// That makes them numbers whatever the sheet: the densities of many rows, or of
/// rows that nothing explains, lie beyond the largest and the smallest there are.
#[derive(Clone, Debug)]
pub(super) struct Table {
    pub(super) columns: usize,
    values: Vec<f64>,
}

impl Table {
    /// The evidence of every hypothesis about a sheet in every state.
    pub(super) fn of(case: &Case<'_>, states: &States, curves: &Curves) -> Self {
        let mut filling = Filling::new(case, curves);
        for cell in &states.cells {
            filling.enter(cell);
            for kappa in prior::SCATTER {
                filling.fill(cell, kappa);
            }
        }
        let unexplained = states.cells.first().map(|cell| filling.unexplained(cell));
        filling.found.table(unexplained)
    }

    /// All columns in one state.
    pub(super) fn at(&self, cell: usize, scatter: usize) -> &[f64] {
        let start = (cell * SCATTERS + scatter) * self.columns;
        &self.values[start..start + self.columns]
    }
}

/// ln of evidence times prior, as far as it is found.
struct Found {
    /// By column.
    ln_priors: Vec<f64>,
    ln_values: Vec<f64>,
    largest: f64,
}

impl Found {
    fn new(tried: &Hypotheses) -> Self {
        Self {
            ln_priors: tried.priors().into_iter().map(f64::ln).collect(),
            ln_values: Vec::new(),
            largest: f64::NEG_INFINITY,
        }
    }

    /// The next column's density, or the first one's of the next state.
    fn push(&mut self, ln_density: f64) {
        let column = self.ln_values.len() % self.ln_priors.len();
        let ln_value = self.ln_priors[column] + ln_density;
        self.largest = self.largest.max(ln_value);
        self.ln_values.push(ln_value);
    }

    /// The density below which nothing matters any more.
    fn least(&self) -> f64 {
        self.largest + NOTHING
    }

    /// With the density that any sheet may have, whatever its kit.
    fn table(self, ln_unexplained: Option<f64>) -> Table {
        let unexplained = ln_unexplained.unwrap_or(f64::NEG_INFINITY);
        let largest = self.largest.max(unexplained);
        let columns = self.ln_priors.len();
        let mut values: Vec<_> = self.ln_values;
        for value in &mut values {
            *value = exp(*value - largest);
        }
        for state in values.chunks_exact_mut(columns) {
            state[UNEXPLAINED] += exp(unexplained - largest);
        }
        Table { columns, values }
    }
}

/// A table being filled, with room that is used again for every state.
struct Filling<'c> {
    case: &'c Case<'c>,
    curves: &'c Curves,
    found: Found,
    /// How residuals move with one standard deviation of a level that is out
    /// for no known reason.
    level: Vec<f64>,
    /// How they move with one of what is not known of each slip of the sheet.
    alongs: Vec<Vec<f64>>,
    /// ln λ of every row in the cell, as written and for each slip of all
    /// frequencies.
    expected: Vec<Point>,
    expected_if: Vec<Vec<Point>>,
    residuals: Vec<Residual>,
    joint: Joint,
    other: Joint,
    wholes: Vec<Vec<(usize, f64)>>,
    singles: Vec<Vec<(usize, f64)>>,
    pair: Vec<(usize, f64)>,
}

impl<'c> Filling<'c> {
    fn new(case: &'c Case<'c>, curves: &'c Curves) -> Self {
        let mut level = vec![prior::LEVEL_UNEXPLAINED_SD; case.seen.rows.len()];
        level.resize(case.seen.len(), 0.0);
        let tried = &case.hypotheses;
        // Only a frequency's shift depends on the cell: see [`Self::enter`].
        let shifts = |part: &Part| match part.change {
            Change::Frequency(..) => Vec::new(),
            _ => case.shifts(curves, &SOUND, part),
        };
        let along = |part: &Part| case.along(&part.change);
        Self {
            case,
            curves,
            found: Found::new(tried),
            level,
            alongs: tried.wholes.iter().map(along).collect(),
            expected: Vec::new(),
            expected_if: vec![Vec::new(); tried.wholes.len()],
            residuals: Vec::new(),
            joint: Joint::default(),
            other: Joint::default(),
            wholes: tried.wholes.iter().map(shifts).collect(),
            singles: tried.singles.iter().map(shifts).collect(),
            pair: Vec::new(),
        }
    }

    /// Takes on what a cell leads one to expect, which is the same at every
    /// scatter.
    fn enter(&mut self, cell: &Cell) {
        let (case, curves) = (self.case, self.curves);
        self.expected = case.expected(curves, cell, 1.0);
        for (part, expected) in case.hypotheses.wholes.iter().zip(&mut self.expected_if) {
            if let Change::AllFrequencies(times) = part.change {
                *expected = case.expected(curves, cell, times);
            }
        }
        for (part, shifts) in case.hypotheses.singles.iter().zip(&mut self.singles) {
            if let Change::Frequency(..) = part.change {
                *shifts = case.shifts(curves, cell, part);
            }
        }
    }

    /// One state's columns.
    fn fill(&mut self, cell: &Cell, kappa: f64) {
        let (case, rows) = (self.case, self.case.seen.rows.len());
        let tried = &case.hypotheses;
        case.residuals(&self.expected, cell, kappa, &mut self.residuals);
        self.joint.set(&self.residuals);
        let (joint, found) = (&self.joint, &mut self.found);
        found.push(joint.ln_density_or_stray(&[], true, rows, found.least()));
        found.push(joint.ln_density_along(&[], &self.level));
        for (at, (part, shifts)) in tried.wholes.iter().zip(&self.wholes).enumerate() {
            found.push(match &part.change {
                Change::Zero(_) | Change::Factor { .. } => {
                    joint.ln_density_along(shifts, &self.alongs[at])
                }
                Change::AllFrequencies(_) => {
                    case.residuals(&self.expected_if[at], cell, kappa, &mut self.residuals);
                    self.other.set(&self.residuals);
                    self.other
                        .ln_density_or_stray(&[], true, rows, found.least())
                }
                _ => joint.ln_density_or_stray(shifts, true, rows, found.least()),
            });
        }
        for shifts in &self.singles {
            found.push(joint.ln_density_or_stray(shifts, false, rows, found.least()));
        }
        for (one, other) in &tried.pairs {
            self.pair.clear();
            self.pair.extend(&self.singles[*one]);
            self.pair.extend(&self.singles[*other]);
            found.push(joint.ln_density(&self.pair));
        }
    }

    /// ln of a density so wide that any sheet may have it, whatever its kit.
    fn unexplained(&mut self, cell: &Cell) -> f64 {
        self.enter(cell);
        self.case
            .residuals(&self.expected, cell, 1.0, &mut self.residuals);
        for residual in &mut self.residuals {
            residual.variance = prior::STRAY_SD.powi(2);
            residual.along[0] = prior::LEVEL_UNEXPLAINED_SD;
        }
        self.joint.set(&self.residuals);
        prior::ROWS_UNEXPLAINED.ln() + self.joint.ln_density(&[])
    }
}
