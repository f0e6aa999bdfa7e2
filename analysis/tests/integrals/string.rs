//! Strings on the grid.

use std::collections::BTreeMap;

use analysis::field::Field;
use analysis::method::Method;
use analysis::sheet::{TypedRow, TypedSheet};
use analysis::wave::{G_STANDARD, string};
use rand::SeedableRng;
use rand::rngs::StdRng;

use super::*;

/// The length of the string from end to end, m.
const LENGTH: f64 = 1.2;

/// What a group wrote down: dials to 0.1 Hz.
struct Bench {
    /// Whether 200 g hung on string of 1.09 g for half a metre.
    masses: bool,
    dials: Vec<f64>,
    loops: Vec<u32>,
}

impl Bench {
    fn typed(&self) -> TypedSheet {
        let row = |at: usize| TypedRow {
            label: (at + 1).to_string(),
            cells: BTreeMap::from([
                (Field::Dial, bare(format!("{:.1}", self.dials[at]))),
                (Field::Loops, bare(self.loops[at].to_string())),
                (Field::Length, bare(format!("{LENGTH:.3}"))),
                (Field::LengthLoops, bare(self.loops[at].to_string())),
            ]),
            left_out: false,
        };
        let mut whole = BTreeMap::new();
        if self.masses {
            whole.insert(Field::HangingMass, bare("200".to_owned()));
            whole.insert(Field::StringMass, bare("1.09".to_owned()));
            whole.insert(Field::StringLength, bare("0.500".to_owned()));
        }
        TypedSheet {
            method: Method::StringLoops,
            whole,
            rows: (0..self.dials.len()).map(row).collect(),
        }
    }

    fn slips(&self) -> Vec<Slip> {
        let rows = self.dials.len();
        let slip = |cause, row, odds, ratios| Slip::new(cause, row, odds, Change::Lengths(ratios));
        let mut slips = Vec::new();
        if self.loops.iter().all(|loops| *loops > 1) {
            let fewer = self.loops.iter().map(|n| f64::from(*n) / f64::from(n - 1));
            slips.push(slip(
                Cause::NodesCountedAsLoops,
                None,
                rate::NODES_COUNTED,
                fewer.collect(),
            ));
        }
        // On a string f and λ come in as their product alone.
        for times in [10.0, 100.0] {
            slips.push(slip(
                Cause::DialMultiplierLeftOut,
                None,
                rate::MULTIPLIER / 2.0,
                vec![times; rows],
            ));
        }
        slips.extend((0..rows).flat_map(|at| self.slips_of_row(at)));
        slips.retain(Slip::may_be);
        slips
    }

    fn slips_of_row(&self, at: usize) -> Vec<Slip> {
        let rows = self.dials.len();
        let slip = |cause, row, odds, ratios| Slip::new(cause, row, odds, Change::Lengths(ratios));
        let mut slips = Vec::new();
        let n = f64::from(self.loops[at]);
        let row = Some(at);
        for by in [-1.0, 1.0] {
            if n + by > 0.5 {
                slips.push(slip(
                    Cause::LoopMiscount,
                    row,
                    rate::LOOP_MISCOUNT_ROW / 2.0,
                    only(rows, at, n / (n + by)),
                ));
            }
        }
        for times in [10.0, 100.0] {
            slips.push(slip(
                Cause::DialMultiplierLeftOut,
                row,
                rate::MULTIPLIER_ROW / 2.0,
                only(rows, at, times),
            ));
        }
        // The lengths are all alike: no digits were swapped in any of them.
        for (ratio, share) in swaps(&format!("{:.1}", self.dials[at])) {
            slips.push(slip(
                Cause::DigitsSwapped,
                row,
                rate::DIGITS_SWAPPED * share,
                only(rows, at, ratio),
            ));
        }
        slips
    }

    /// ln v (m/s) with its standard deviation, and the share of strings.
    fn speeds(&self) -> Vec<(f64, f64, f64)> {
        if self.masses {
            let foretold = string::speed(0.2, 0.00109, 0.5, G_STANDARD).ln();
            let off = 2.0 * prior::APPARATUS;
            vec![
                (foretold, prior::STRING_SPEED_SD, 1.0 - off),
                (foretold, prior::STRING_OFF_SD, off),
            ]
        } else {
            vec![(
                prior::STRING_SPEED_MEDIAN.ln(),
                prior::UNKNOWN_STRING_SPEED_SD,
                1.0,
            )]
        }
    }

    /// Standard deviation of a length as read and written, a share.
    fn length_share(kappa: f64) -> f64 {
        let rounded = 0.001 / 12.0_f64.sqrt();
        let one = (kappa * prior::STRING_LENGTH_SD).hypot(rounded) / LENGTH;
        one.hypot(prior::ROW_FLOOR)
    }

    /// The density of all rows at a speed, which takes up what is not known of
    /// the string's length: that is one and the same in every row.
    fn density(&self, ln_speed: f64, kappa: f64, slip: Option<&Slip>) -> f64 {
        let row = |at: usize| {
            let f = self.dials[at];
            let mut ln_v = (2.0 * LENGTH / f64::from(self.loops[at]) * f).ln();
            if let Some(Slip {
                change: Change::Lengths(ratios),
                ..
            }) = slip
            {
                ln_v += ratios[at].ln();
            }
            let digit = 0.1 / (12.0_f64.sqrt() * f);
            let read = digit.powi(2) + prior::RESONANCE_SD.powi(2);
            let variance = kappa * kappa * read + digit.powi(2) + prior::ROW_FLOOR.powi(2);
            let honest = normal_density(ln_v - ln_speed, variance);
            if slip.is_some_and(|slip| slip.row == Some(at)) {
                return honest;
            }
            let odds = prior::STRAY_ROW / (1.0 - prior::STRAY_ROW);
            honest + odds * normal_density(ln_v - ln_speed, variance + prior::STRAY_SD.powi(2))
        };
        (0..self.dials.len()).map(row).product()
    }

    fn summed(&self, slips: &[Slip]) -> Evidence {
        let mut evidence = Evidence::new(slips);
        let lost = prior::LEVEL_UNEXPLAINED_SD;
        for (mean, sd, share) in self.speeds() {
            for (kappa, of_kappa) in scatters() {
                let sum = |sd: f64, slip: Option<&Slip>| -> f64 {
                    let dial = kappa * prior::DIAL_FACTOR_SD;
                    let sd = sd.hypot(dial).hypot(Self::length_share(kappa));
                    // A third of a row's error, or less.
                    let steps = (1..).find(|n| 8.0 * sd / f64::from(*n) < 0.002);
                    let points = normal_points(mean, sd, steps.expect("some number"));
                    let at = |(ln_v, weight)| weight * self.density(ln_v, kappa, slip);
                    points.into_iter().map(at).sum::<f64>() * share * of_kappa
                };
                evidence.none += sum(sd, None);
                evidence.unexplained += prior::LEVEL_UNEXPLAINED * sum(sd.hypot(lost), None);
                for (slip, total) in slips.iter().zip(&mut evidence.slips) {
                    *total += sum(sd, Some(slip));
                }
            }
        }
        // Rows that have nothing to do with each other, about any level.
        let (mean, sd, _) = self.speeds()[0];
        let residuals: Vec<_> = (0..self.dials.len())
            .map(|at| (2.0 * LENGTH / f64::from(self.loops[at]) * self.dials[at]).ln() - mean)
            .collect();
        let apart = vec![prior::STRAY_SD.powi(2); residuals.len()];
        let level = lost.powi(2) + sd.powi(2);
        evidence.unexplained += prior::ROWS_UNEXPLAINED * density(&residuals, &apart, level, None);
        evidence
    }
}

fn bench(rng: &mut StdRng, masses: bool, scatter: f64, wrong: impl Fn(usize, u32) -> u32) -> Bench {
    let speed = 29.996 * (0.05 * normal(rng)).exp();
    let there = [2, 3, 4, 6, 8];
    let dials = there.map(|n| {
        let f = f64::from(n) * speed / (2.0 * LENGTH) * (scatter * normal(rng)).exp();
        (f * 10.0).round() / 10.0
    });
    Bench {
        masses,
        dials: dials.into(),
        loops: (0..5).map(|at| wrong(at, there[at])).collect(),
    }
}

#[test]
fn strings_are_judged_as_the_grid_judges_them() {
    let mut seen = 0;
    for masses in [true, false] {
        for (seed, scatter) in [(2, 0.01), (1, 0.005)] {
            let read = |wrong: &dyn Fn(usize, u32) -> u32| {
                bench(&mut StdRng::seed_from_u64(seed), masses, scatter, wrong)
            };
            for (name, bench) in [
                ("clean", read(&|_, n| n)),
                ("nodes", read(&|_, n| n + 1)),
                ("one row", read(&|at, n| n + u32::from(at == 4))),
            ] {
                let (slips, name) = (bench.slips(), format!("{name}, {masses}, {scatter}"));
                let evidence = bench.summed(&slips);
                seen += agree(&name, &bench.typed(), &slips, &evidence, TOLERANCE);
            }
        }
    }
    assert!(seen >= 8, "{seen}");
}
