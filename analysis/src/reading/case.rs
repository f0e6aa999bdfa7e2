//! One sheet against every state of its kit: the evidence of each hypothesis
//! in each cell, at each scatter.

use crate::method::Method;
use crate::sheet::Sheet;
use crate::wave::water::{LnWavelength, Water};

use super::cell::{Cell, States};
use super::hypothesis::{Change, Hypotheses, Part, Reference, hypotheses};
use super::likelihood::{Joint, Residual, exp};
use super::observe::{Observation, Observed};
use super::prior;

/// How many scatters κ are weighed.
pub(super) const SCATTERS: usize = prior::SCATTER.len();

/// The column of *no slip*.
pub(super) const NONE: usize = 0;

/// The column of sheets that are out for no known reason.
pub(super) const UNEXPLAINED: usize = 1;

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

/// λ of every frequency that some hypothesis of a kit's sheets needs, in each
/// of its waters.
#[derive(Clone, Debug, Default)]
pub(super) struct Curves {
    frequencies: Vec<f64>,
    /// By water, then frequency.
    ln_wavelengths: Vec<Vec<LnWavelength>>,
}

/// Evidence times prior of each hypothesis, by cell, scatter and column.
#[derive(Clone, Debug)]
pub(super) struct Table {
    pub(super) columns: usize,
    pub(super) values: Vec<f64>,
}

impl Table {
    /// All columns in one state.
    pub(super) fn at(&self, cell: usize, scatter: usize) -> &[f64] {
        let start = (cell * SCATTERS + scatter) * self.columns;
        &self.values[start..start + self.columns]
    }
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
        crate::stats::spread::median(&speeds).unwrap_or(0.0)
    }

    /// Every frequency at which λ is needed.
    fn frequencies(&self) -> Vec<f64> {
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

    fn residual(
        &self,
        row: &Observation,
        curve: LnWavelength,
        cell: &Cell,
        kappa: f64,
    ) -> Residual {
        let g = -curve.by_ln_frequency;
        let own = row.length_error.variance(kappa) + g * g * row.frequency_error.variance(kappa);
        let floor = if self.seen.scale.is_some() {
            prior::LEVEL_FLOOR
        } else {
            0.0
        };
        let level = square(kappa * self.seen.level_share) + square(floor) + square(cell.level_sd);
        let dial = square(kappa * prior::DIAL_FACTOR_SD) + square(cell.dial_sd);
        Residual {
            value: row.ln_wavelength - curve.value - cell.level - g * cell.dial,
            variance: own + square(prior::ROW_FLOOR),
            along: [
                level.sqrt(),
                g * dial.sqrt(),
                curve.by_surface_tension * cell.tension_sd,
                curve.by_ln_depth * cell.depth_sd,
            ],
        }
    }

    /// The residuals in a state, with all frequencies so many times as high.
    pub(super) fn residuals(
        &self,
        curves: &Curves,
        cell: &Cell,
        kappa: f64,
        times: f64,
        into: &mut Vec<Residual>,
    ) {
        into.clear();
        into.extend(self.seen.rows.iter().map(|row| {
            let curve = self.curve(curves, cell, row.frequency * times);
            self.residual(row, curve, cell, kappa)
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

    /// How residuals move with one standard deviation of a level that is out
    /// for no known reason.
    fn along_level(&self) -> Vec<f64> {
        let mut along = vec![prior::LEVEL_UNEXPLAINED_SD; self.seen.rows.len()];
        along.resize(self.seen.len(), 0.0);
        along
    }

    /// The evidence of every hypothesis in every state.
    pub(super) fn table(&self, states: &States, curves: &Curves) -> Table {
        let columns = self.hypotheses.len();
        let mut values = Vec::with_capacity(states.cells.len() * SCATTERS * columns);
        let mut work = Work {
            level: self.along_level(),
            ..Work::default()
        };
        let unexplained = self.unexplained(states, curves, &mut work);
        for cell in &states.cells {
            work.take_shifts(self, curves, cell);
            for kappa in prior::SCATTER {
                self.fill(curves, cell, kappa, &mut work, &mut values);
                let start = values.len() - columns;
                values[start + UNEXPLAINED] += unexplained;
            }
        }
        Table { columns, values }
    }

    /// A density so wide that any sheet may have it, whatever its kit.
    fn unexplained(&self, states: &States, curves: &Curves, work: &mut Work) -> f64 {
        let Some(cell) = states.cells.first() else {
            return 0.0;
        };
        self.residuals(curves, cell, 1.0, 1.0, &mut work.residuals);
        for residual in &mut work.residuals {
            residual.variance = prior::STRAY_SD.powi(2);
            residual.along[0] = prior::LEVEL_UNEXPLAINED_SD;
        }
        work.joint.set(&work.residuals);
        prior::ROWS_UNEXPLAINED * exp(work.joint.ln_density(&[]) - self.ln_scale())
    }

    /// Densities of many residuals are large: they are told relative to one of
    /// half a per cent each.
    fn ln_scale(&self) -> f64 {
        let residuals = u32::try_from(self.seen.len()).unwrap_or(u32::MAX);
        -(0.005_f64.ln()) * f64::from(residuals)
    }

    /// One state's columns, appended.
    fn fill(&self, curves: &Curves, cell: &Cell, kappa: f64, work: &mut Work, to: &mut Vec<f64>) {
        let tried = &self.hypotheses;
        let none = tried.none * (-self.ln_scale()).exp();
        let rows = self.seen.rows.len();
        self.residuals(curves, cell, kappa, 1.0, &mut work.residuals);
        work.joint.set(&work.residuals);
        let joint = &work.joint;
        to.push(none * joint.density(&[], true, rows));
        let level = joint.density_along(&[], &work.level);
        to.push(none / tried.none * prior::LEVEL_UNEXPLAINED * level);
        for (part, shifts) in tried.wholes.iter().zip(&work.wholes) {
            let density = match &part.change {
                Change::Zero(zero) => joint.density_along(shifts, &self.along_zero(*zero)),
                Change::AllFrequencies(times) => {
                    self.residuals(curves, cell, kappa, *times, &mut work.residuals);
                    work.other.set(&work.residuals);
                    work.other.density(&[], true, rows)
                }
                _ => joint.density(shifts, true, rows),
            };
            to.push(none * part.prior * density);
        }
        for (part, shifts) in tried.singles.iter().zip(&work.singles) {
            let density = joint.density(shifts, false, rows);
            to.push(none * part.prior * density);
        }
        for (one, other) in &tried.pairs {
            work.pair.clear();
            work.pair.extend(&work.singles[*one]);
            work.pair.extend(&work.singles[*other]);
            let prior = tried.singles[*one].prior * tried.singles[*other].prior;
            to.push(none * prior * joint.density(&work.pair, false, 0));
        }
    }
}

/// A square. (`hypot` guards against overflow, which no share needs, and takes
/// several times as long.)
fn square(x: f64) -> f64 {
    x * x
}

/// Room that is used again for every state.
#[derive(Debug, Default)]
struct Work {
    residuals: Vec<Residual>,
    joint: Joint,
    other: Joint,
    wholes: Vec<Vec<(usize, f64)>>,
    singles: Vec<Vec<(usize, f64)>>,
    pair: Vec<(usize, f64)>,
    level: Vec<f64>,
}

impl Work {
    /// The shifts of every slip, which are the same at every scatter.
    fn take_shifts(&mut self, case: &Case<'_>, curves: &Curves, cell: &Cell) {
        let of = |part: &Part| case.shifts(curves, cell, part);
        self.wholes = case.hypotheses.wholes.iter().map(of).collect();
        self.singles = case.hypotheses.singles.iter().map(of).collect();
    }
}

impl Curves {
    /// For the sheets of one kit.
    pub(super) fn of(states: &States, cases: &[&Case<'_>]) -> Self {
        if states.waters.is_empty() {
            return Self::default();
        }
        let mut frequencies: Vec<_> = cases.iter().flat_map(|case| case.frequencies()).collect();
        frequencies.sort_by(f64::total_cmp);
        frequencies.dedup_by(|one, other| one.total_cmp(other).is_eq());
        let curve = |water: &Water| {
            let at = frequencies.iter().map(|f| water.ln_wavelength(*f));
            at.collect()
        };
        Self {
            ln_wavelengths: states.waters.iter().map(curve).collect(),
            frequencies,
        }
    }

    fn at(&self, water: usize, frequency: f64) -> LnWavelength {
        let at = self.frequencies.partition_point(|f| *f < frequency);
        self.ln_wavelengths[water][at]
    }
}
