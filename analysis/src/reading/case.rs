//! One sheet with what is tried on it, and its residuals in a state of its kit.

use crate::method::Method;
use crate::sheet::Sheet;
use crate::stats::spread;
use crate::wave::water::{LnWavelength, Water};

use super::cell::Cell;
use super::curve::Curves;
use super::hypothesis::{Change, Hypotheses, Part, Reference, hypotheses};
use super::likelihood::Residual;
use super::observe::{Observation, Observed};
use super::prior;

/// A sheet with what is tried on it.
#[derive(Clone, Debug)]
pub(super) struct Case<'s> {
    pub(super) sheet: &'s Sheet,
    pub(super) seen: Observed,
    pub(super) hypotheses: Hypotheses,
    /// ln of the speed (m/s) that the string is centred on.
    ln_speed: f64,
    /// Whether that is what its masses foretell.
    is_foretold: bool,
    /// The depth recorded of the kit, m.
    depth: Option<f64>,
}

impl<'s> Case<'s> {
    /// `None` where no row has both a frequency and a wavelength.
    /// The kit's depth (m, with its last digit) or the speed (m/s) on its
    /// string, where some sheet of it recorded enough.
    pub(super) fn of(
        sheet: &'s Sheet,
        depth: Option<(f64, f64)>,
        foretold: Option<f64>,
    ) -> Option<Self> {
        let seen = Observed::of(sheet);
        if seen.rows.is_empty() {
            return None;
        }
        let ln_speed = foretold.unwrap_or(prior::STRING_SPEED_MEDIAN).ln();
        let mut case = Self {
            sheet,
            hypotheses: Hypotheses::default(),
            ln_speed,
            is_foretold: foretold.is_some(),
            depth: depth.map(|(depth, _)| depth),
            seen,
        };
        case.hypotheses = case.tried();
        Some(case)
    }

    /// The hypotheses, about apparatus as it should be.
    fn tried(&self) -> Hypotheses {
        let usual = (prior::USUAL_DEPTH.start() * prior::USUAL_DEPTH.end()).sqrt();
        let water = Water {
            surface_tension: prior::SURFACE_TENSION_MEAN,
            ..Water::clean(20.0, self.depth.unwrap_or(usual))
        };
        // An unknown depth may lie a factor of two away.
        let doubt = if self.depth.is_some() { 0.2 } else { 0.5 };
        let ln_speed = if self.is_foretold {
            self.ln_speed
        } else {
            self.median_ln_speed()
        };
        let ln_wavelength = |f: f64| match self.seen.method {
            Method::RippleTank => {
                let curve = water.ln_wavelength(f);
                (curve.value, doubt * curve.by_ln_depth)
            }
            Method::StringLoops => (ln_speed - f.ln(), 0.0),
        };
        let reference = Reference {
            ln_wavelength: &ln_wavelength,
            is_level_known: self.seen.method == Method::RippleTank || self.is_foretold,
        };
        hypotheses(self.sheet, &self.seen, &reference)
    }

    fn median_ln_speed(&self) -> f64 {
        let of_row = |row: &Observation| row.ln_wavelength + row.frequency.ln();
        let speeds: Vec<_> = self.seen.rows.iter().map(of_row).collect();
        spread::median(&speeds).unwrap_or(0.0)
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
                Change::Shift(_) | Change::Zero(_) => {}
            }
        }
        needed
    }

    /// ln λ (m) and its derivatives at a frequency.
    fn curve(&self, curves: &Curves, cell: &Cell, frequency: f64) -> LnWavelength {
        match self.seen.method {
            Method::RippleTank => curves.at(cell.water, frequency),
            Method::StringLoops => LnWavelength {
                value: self.ln_speed - frequency.ln(),
                by_ln_frequency: -1.0,
                by_surface_tension: 0.0,
                by_ln_depth: 0.0,
            },
        }
    }

    /// ln λ of every row in a cell, with all frequencies so many times as high.
    pub(super) fn expected(&self, curves: &Curves, cell: &Cell, times: f64) -> Vec<LnWavelength> {
        let of_row = |row: &Observation| self.curve(curves, cell, row.frequency * times);
        self.seen.rows.iter().map(of_row).collect()
    }

    /// The residuals about what a cell leads one to expect, at a scatter.
    pub(super) fn residuals(
        &self,
        expected: &[LnWavelength],
        cell: &Cell,
        kappa: f64,
        into: &mut Vec<Residual>,
    ) {
        let floor = if self.seen.scale.is_some() {
            prior::LEVEL_FLOOR
        } else {
            0.0
        };
        let level = square(kappa * self.seen.level_share) + square(floor) + square(cell.level_sd);
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
                    curve.by_surface_tension * cell.tension_sd,
                    curve.by_ln_depth * cell.depth_sd,
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
                    let curve = self.curve(curves, cell, f);
                    curve.value - curve.by_ln_frequency * cell.dial
                };
                vec![(*at, there(f) - there(f * times))]
            }
            Change::Zero(zero) => {
                let rows = self.seen.rows.iter().enumerate();
                rows.map(|(at, row)| (at, (1.0 - zero / row.length).ln()))
                    .collect()
            }
            Change::AllFrequencies(_) => Vec::new(),
        }
    }

    /// How spans move with one standard deviation of a zero error.
    pub(super) fn along_zero(&self, zero: f64) -> Vec<f64> {
        let row = |row: &Observation| prior::ZERO_ERROR_SD / (zero - row.length);
        let mut along: Vec<_> = self.seen.rows.iter().map(row).collect();
        along.resize(self.seen.len(), 0.0);
        along
    }
}

/// A square. (`hypot` guards against overflow, which no share needs, and takes
/// several times as long.)
fn square(x: f64) -> f64 {
    x * x
}
