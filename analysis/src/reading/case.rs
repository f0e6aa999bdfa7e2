//! One sheet with what is tried on it, and its residuals in a state of its kit.

use crate::method::Model;
use crate::method::model::Recorded;
use crate::method::model::observe::{Observation, Observed};
use crate::method::model::part::{Change, Part};
use crate::method::model::state::{Cell, Point};
use crate::method::prior;
use crate::sheet::Sheet;

use super::curve::Curves;
use super::hypothesis::{Hypotheses, hypotheses};
use super::likelihood::Residual;

/// A sheet with what is tried on it.
#[derive(Clone, Debug)]
pub(super) struct Case<'s> {
    pub(super) sheet: &'s Sheet,
    pub(super) seen: Observed,
    pub(super) hypotheses: Hypotheses,
}

impl<'s> Case<'s> {
    /// A sheet of a kit of which so much was recorded; `None` where no row has
    /// all that is judged.
    pub(super) fn of(sheet: &'s Sheet, recorded: Option<Recorded>) -> Option<Self> {
        let model = sheet.method.model();
        let seen = model.observe(&sheet.whole, &sheet.rows);
        if seen.rows.is_empty() {
            return None;
        }
        let hypotheses = hypotheses(sheet, &seen, &model.usual(recorded, &seen));
        Some(Self {
            sheet,
            seen,
            hypotheses,
        })
    }

    pub(super) fn model(&self) -> &'static dyn Model {
        self.sheet.method.model()
    }

    /// Every frequency at which λ is needed.
    pub(super) fn frequencies(&self) -> Vec<f64> {
        let rows = || self.seen.rows.iter().map(|row| row.frequency);
        let mut needed: Vec<_> = rows().collect();
        for part in self
            .hypotheses
            .wholes
            .iter()
            .chain(&self.hypotheses.singles)
        {
            match part.change {
                Change::AllFrequencies(times) => needed.extend(rows().map(|f| f * times)),
                Change::Frequency(at, times) => needed.push(self.seen.rows[at].frequency * times),
                Change::Shift(_) | Change::Zero(_) | Change::Factor { .. } => {}
            }
        }
        needed
    }

    /// ln λ of every row in a cell, with all frequencies so many times as high.
    pub(super) fn expected(&self, curves: &Curves, cell: &Cell, times: f64) -> Vec<Point> {
        let of_row = |row: &Observation| curves.at(cell.curve, row.frequency * times);
        self.seen.rows.iter().map(of_row).collect()
    }

    /// The residuals about what a cell leads one to expect, at a scatter.
    pub(super) fn residuals(
        &self,
        expected: &[Point],
        cell: &Cell,
        kappa: f64,
        into: &mut Vec<Residual>,
    ) {
        let floor = square(self.seen.level_floor);
        let level = square(kappa * self.seen.level_share) + floor + square(cell.level_sd);
        let dial = square(kappa * prior::DIAL_FACTOR_SD) + square(cell.dial_sd);
        let (level, dial) = (level.sqrt(), dial.sqrt());
        into.clear();
        into.extend(self.seen.rows.iter().zip(expected).map(|(row, curve)| {
            let g = -curve.by_ln_frequency;
            let read =
                row.length_error.variance(kappa) + g * g * row.frequency_error.variance(kappa);
            Residual {
                value: row.ln_wavelength - curve.value - cell.level - g * cell.dial,
                variance: read + square(prior::ROW_FLOOR),
                along: [
                    level,
                    g * dial,
                    curve.bends[0] * cell.bend_sds[0],
                    curve.bends[1] * cell.bend_sds[1],
                ],
            }
        }));
        // A string has no surface tension; its place is free for the string's
        // own length, which is not known beforehand.
        for total in &self.seen.totals {
            into[total.of].along[2] = prior::STRING_TOTAL_SD;
        }
        into.extend(self.seen.measured().map(|total| Residual {
            value: total.ln_length - self.seen.ln_total,
            variance: total.error.variance(kappa) + square(prior::ROW_FLOOR),
            along: [0.0, 0.0, -prior::STRING_TOTAL_SD, 0.0],
        }));
    }

    /// What a slip adds to the residuals in a state.
    pub(super) fn shifts(&self, curves: &Curves, cell: &Cell, part: &Part) -> Vec<(usize, f64)> {
        match &part.change {
            Change::Shift(shifts) => shifts.clone(),
            Change::Frequency(at, times) => {
                let f = self.seen.rows[*at].frequency;
                let there = |f| {
                    let curve = curves.at(cell.curve, f);
                    curve.value - curve.by_ln_frequency * cell.dial
                };
                vec![(*at, there(f) - there(f * times))]
            }
            Change::Zero(zero) => {
                let rows = self.seen.rows.iter().enumerate();
                rows.map(|(at, row)| (at, (1.0 - zero / row.length).ln()))
                    .collect()
            }
            Change::Factor { ln, .. } => {
                let rows = 0..self.seen.rows.len();
                rows.map(|at| (at, -ln)).collect()
            }
            Change::AllFrequencies(_) => Vec::new(),
        }
    }

    /// How the residuals move with one standard deviation of what is not known
    /// of a slip; empty where all is.
    pub(super) fn along(&self, change: &Change) -> Vec<f64> {
        let row = |row: &Observation| match change {
            Change::Zero(zero) => Some(prior::ZERO_ERROR_SD / (zero - row.length)),
            Change::Factor { sd, .. } => Some(*sd),
            _ => None,
        };
        let along: Option<Vec<_>> = self.seen.rows.iter().map(row).collect();
        let mut along = along.unwrap_or_default();
        if !along.is_empty() {
            along.resize(self.seen.len(), 0.0);
        }
        along
    }
}

/// A square. (`hypot` guards against overflow, which no share needs, and takes
/// several times as long.)
fn square(x: f64) -> f64 {
    x * x
}
