//! One string sheet: the integral over the fundamental frequency on a fine
//! grid, the string's length in closed form.

use analysis::field::Field;
use analysis::reading::Cause;
use analysis::sheet::{Row, Sheet};
use analysis::wave::{G_STANDARD, string};
use simulator::school::{self, School};
use simulator::slip::SWAPS_IN_SPAN;

use super::super::classes::Event;
use super::density::{either_way, normal, uniform_and_normal, uniforms_and_normal};
use super::rows::{Alternative, Rows};
use super::{Evidence, row_share, unswapped, whole_share};

/// A row as read.
struct Reading {
    mark: f64,
    /// Half a unit of the dial's last digit.
    half: f64,
    times: f64,
    loops: f64,
    /// In mm.
    length: f64,
    /// The part of the string that the length covers.
    covers: f64,
    dials: Vec<(f64, f64)>,
    lengths: Vec<(f64, f64)>,
}

fn reading(row: &Row) -> Reading {
    let entry = |field| row.entries.get(field);
    let dial = entry(Field::Dial).expect("every row has a dial");
    let length = entry(Field::Length).expect("every row has a length");
    let loops = row.entries.si(Field::Loops).expect("every row has loops");
    let covered = row.entries.si(Field::LengthLoops).unwrap_or(loops);
    let in_mm = 1000.0 * length.si() / length.figure.value();
    let lengths = unswapped(length.figure.text());
    Reading {
        mark: dial.figure.value(),
        half: dial.figure.resolution() / 2.0,
        times: row.entries.si(Field::DialTimes).unwrap_or(1.0),
        loops,
        length: 1000.0 * length.si(),
        covers: covered / loops,
        dials: unswapped(dial.figure.text()),
        lengths: lengths.into_iter().map(|(l, w)| (l * in_mm, w)).collect(),
    }
}

/// What is known of one sheet.
struct Bench<'s> {
    school: &'s School,
    noise: f64,
    rows: Vec<Reading>,
    /// √(T/μ), m/s, where the masses were written down.
    foretold: Option<f64>,
    /// Whether single loops were measured.
    one_loop: bool,
}

pub(super) fn evidence(school: &School, noise: f64, sheet: &Sheet) -> Evidence {
    let mass = |field| sheet.whole.si(field);
    let foretold = mass(Field::HangingMass).and_then(|hung| {
        let (own, weighed) = (mass(Field::StringMass)?, mass(Field::StringLength)?);
        Some(string::speed(hung, own, weighed, G_STANDARD))
    });
    let rows: Vec<_> = sheet.rows.iter().map(reading).collect();
    let bench = Bench {
        one_loop: rows.iter().any(|row| row.covers < 0.99),
        school,
        noise,
        rows,
        foretold,
    };
    let mut evidence = Evidence::default();
    for fault in bench.faults() {
        bench.add(&mut evidence, &fault);
    }
    evidence
}

/// A fault of the apparatus, or none.
struct Fault {
    event: Vec<Event>,
    prior: f64,
    /// Shifts of the level that it makes, each with its probability.
    shifts: Vec<(f64, f64)>,
}

impl Bench<'_> {
    fn faults(&self) -> Vec<Fault> {
        let none = Fault {
            event: vec![],
            prior: 1.0 - self.school.faults,
            shifts: vec![(0.0, 1.0)],
        };
        if self.foretold.is_none() {
            return vec![none];
        }
        let fault = |cause, bounds| Fault {
            event: vec![(cause, None)],
            prior: self.school.faults / 2.0,
            shifts: either_way(bounds, 8),
        };
        vec![
            none,
            fault(Cause::DialOff, school::FACTOR_OFF),
            fault(Cause::StringStretched, school::STRETCH),
        ]
    }

    /// Prior density of ln (speed × dial factor).
    fn level(&self, level: f64, fault: &Fault) -> f64 {
        let sd = self
            .school
            .string_speed_sd
            .hypot(self.noise * self.school.dial_factor_sd);
        if let Some(foretold) = self.foretold {
            let at =
                |(shift, chance): &(f64, f64)| chance * normal(level - foretold.ln() - shift, sd);
            return fault.shifts.iter().map(at).sum();
        }
        let (light, heavy) = school::STRING_DENSITY;
        let half = 0.25 * (heavy / light).ln();
        let hung = school::HUNG.iter().map(|hung| {
            let middle = (hung * G_STANDARD / (light * heavy).sqrt()).ln() / 2.0;
            uniform_and_normal(level - middle, half, sd)
        });
        hung.sum::<f64>() / 7.0
    }

    fn add(&self, evidence: &mut Evidence, fault: &Fault) {
        let rates = &self.school.string;
        let plain = self.rows.iter().all(|row| row.times < 2.0);
        let ten = self.school.times_ten;
        let as_written = if plain { 1.0 - ten } else { ten };
        self.add_config(evidence, fault, fault.prior * as_written, 0.0, 1.0, None);
        let nodes = self.rows.iter().all(|row| row.loops > 1.5) && !self.one_loop;
        if nodes {
            let cause = Cause::NodesCountedAsLoops;
            let weight = fault.prior * as_written * whole_share(rates, cause);
            self.add_config(evidence, fault, weight, 1.0, 1.0, Some(cause));
        }
        if plain {
            let cause = Cause::DialMultiplierLeftOut;
            let weight = fault.prior * ten * whole_share(rates, cause);
            self.add_config(evidence, fault, weight, 0.0, 10.0, Some(cause));
        }
    }

    /// One slip in every row (`cause`), or none and those in single rows: the
    /// loops are `fewer` than written, the frequencies `times` as high.
    fn add_config(
        &self,
        evidence: &mut Evidence,
        fault: &Fault,
        weight: f64,
        fewer: f64,
        times: f64,
        cause: Option<Cause>,
    ) {
        let lengths: Vec<_> = self.rows.iter().map(|row| row.length).collect();
        let as_measured = self.lengths(&lengths);
        let swapped = self.swapped_lengths(&lengths);
        let twice_length = 2.0 * self.string_length() / 1000.0;
        let (grid, step) = self.grid(fewer, times);
        let mut events: Vec<Event> = cause.map(|cause| (cause, None)).into_iter().collect();
        events.extend(&fault.event);
        for fundamental in grid {
            let prior = self.level(fundamental + twice_length.ln(), fault);
            let weight = weight * prior * step;
            let fundamental = fundamental.exp();
            let fine: Vec<f64> = self
                .rows
                .iter()
                .map(|row| self.row(row, row.mark, fundamental * (row.loops - fewer) / times))
                .collect();
            let dead = fine.iter().filter(|l| **l < 1e-12).count();
            if cause.is_some() {
                if dead == 0 {
                    let all = as_measured * fine.iter().product::<f64>();
                    evidence.add(weight * all, &events);
                }
            } else if dead <= 2 {
                let rows = Rows {
                    rates: &self.school.string,
                    alternatives: &self.alternatives(fundamental),
                    fine: &self.unless_multiplier_is_missing(fine),
                    faults: &events,
                };
                rows.add(evidence, weight * as_measured);
                for (at, chance) in &swapped {
                    let event = (Cause::DigitsSwapped, Some(*at));
                    rows.add_beside(evidence, weight * chance, event);
                }
            }
        }
    }

    /// A multiplier that only one row lacks was left out there.
    fn unless_multiplier_is_missing(&self, mut fine: Vec<f64>) -> Vec<f64> {
        let most = self.rows.iter().map(|row| row.times).fold(1.0, f64::max);
        for (row, likelihood) in self.rows.iter().zip(&mut fine) {
            if row.times < most {
                *likelihood = 0.0;
            }
        }
        fine
    }

    /// Density of a dial reading where the frequency is `f`.
    fn row(&self, row: &Reading, mark: f64, f: f64) -> f64 {
        let pointer = f / row.times;
        let sd = pointer * self.noise * self.school.hand.resonance;
        uniforms_and_normal(mark - pointer, self.noise * row.half, row.half, sd)
    }

    /// ln of fundamentals that any row, rightly counted or not, could mean.
    fn grid(&self, fewer: f64, times: f64) -> (Vec<f64>, f64) {
        let mut low = f64::INFINITY;
        let mut high = f64::NEG_INFINITY;
        let mut narrowest = f64::INFINITY;
        for row in &self.rows {
            let reach = (1.0 + self.noise) * row.half / row.mark
                + 6.0 * self.noise * self.school.hand.resonance;
            let level = (row.mark * row.times * times / (row.loops - fewer)).ln();
            low = low.min(level - reach.min(1.5));
            high = high.max(level + reach.min(1.5));
            narrowest =
                narrowest.min(self.noise * self.school.hand.resonance + row.half / row.mark);
        }
        let step = 0.4 * narrowest;
        let mut grid = Vec::new();
        let mut at = low;
        while at < high {
            grid.push(at);
            at += step;
        }
        (grid, step)
    }

    /// The string's length (mm) by the middle row.
    fn string_length(&self) -> f64 {
        let mut all: Vec<_> = self.rows.iter().map(|r| r.length / r.covers).collect();
        all.sort_by(f64::total_cmp);
        all[all.len() / 2]
    }

    /// Density (per mm each) of measured lengths, the string's own length
    /// being anything: copied down, or measured afresh in each row.
    fn lengths(&self, lengths: &[f64]) -> f64 {
        let sd = (self.noise * self.school.hand.length).hypot(12.0_f64.sqrt().recip());
        let pairs = || self.rows.iter().map(|row| row.covers).zip(lengths);
        let squares: f64 = pairs().map(|(c, _)| c * c).sum();
        let best = pairs().map(|(c, l)| c * l).sum::<f64>() / squares;
        let misfit: f64 = pairs().map(|(c, l)| (l - c * best).powi(2)).sum();
        let count = f64::from(u32::try_from(lengths.len()).expect("a few rows"));
        let spread = std::f64::consts::TAU * sd * sd;
        let fresh =
            (-0.5 * misfit / (sd * sd)).exp() / (spread.powf((count - 1.0) / 2.0) * squares.sqrt());
        if self.one_loop {
            return fresh;
        }
        let alike = lengths.iter().all(|l| (l - lengths[0]).abs() < 0.01);
        let copied = if alike { 1.0 } else { 0.0 };
        school::LENGTH_COPIED * copied + (1.0 - school::LENGTH_COPIED) * fresh
    }

    /// Rows whose length may have two digits swapped, each with the prior of
    /// just that swap (given that a row slips) times the density of the lengths
    /// as they then are.
    fn swapped_lengths(&self, lengths: &[f64]) -> Vec<(usize, f64)> {
        let rates = &self.school.string;
        let share = row_share(rates, Cause::DigitsSwapped) / rates.single() * SWAPS_IN_SPAN;
        let mut all = Vec::new();
        for (at, row) in self.rows.iter().enumerate() {
            for (length, chance) in &row.lengths {
                let mut mended = lengths.to_vec();
                mended[at] = *length;
                all.push((at, share * chance * self.lengths(&mended)));
            }
        }
        all
    }

    fn alternatives(&self, fundamental: f64) -> Vec<Vec<Alternative>> {
        let most = self.rows.iter().map(|row| row.times).fold(1.0, f64::max);
        let one = |row: &Reading| {
            if row.times < most {
                let cause = Cause::DialMultiplierLeftOut;
                let f = fundamental * row.loops / most;
                return vec![self.alternative(cause, 1.0, self.row(row, row.mark, f))];
            }
            let mut all = Vec::new();
            if !self.one_loop {
                for (true_loops, chance) in true_loops(row.loops) {
                    let likelihood = self.row(row, row.mark, fundamental * true_loops);
                    all.push(self.alternative(Cause::LoopMiscount, chance, likelihood));
                }
            }
            let swap = Cause::DigitsSwapped;
            for (mark, chance) in &row.dials {
                let likelihood = self.row(row, *mark, fundamental * row.loops);
                let chance = chance * (1.0 - SWAPS_IN_SPAN);
                all.push(self.alternative(swap, chance, likelihood));
            }
            all
        };
        self.rows.iter().map(one).collect()
    }

    fn alternative(&self, cause: Cause, chance: f64, likelihood: f64) -> Alternative {
        let rates = &self.school.string;
        Alternative {
            cause,
            weight: chance * row_share(rates, cause) / rates.single(),
            likelihood,
        }
    }
}

/// What the loops may have been where so many were written down by mistake,
/// each with the chance of that mistake: one loop can only be made two.
fn true_loops(written: f64) -> Vec<(f64, f64)> {
    let mut all = vec![(written + 1.0, 0.5)];
    if written > 1.5 {
        let chance = if written < 2.5 { 1.0 } else { 0.5 };
        all.push((written - 1.0, chance));
    }
    all
}
