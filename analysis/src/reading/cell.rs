//! The states that a kit may be in: its water, depth, lamp and dial, or its
//! string, cut into cells.
//!
//! The physics is a smooth curve, so within a cell it is taken as linear and
//! what is not known as normal: the evidence of a cell is then a closed form
//! (`likelihood.rs`). Kernels overlap enough that their sum is the prior to a
//! few per cent.

use std::ops::RangeInclusive;

use statrs::distribution::{ContinuousCDF, Normal};

use crate::wave::water::Water;

use super::cause::Cause;
use super::prior;

/// One state of a kit.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cell {
    /// Its prior probability.
    pub(super) weight: f64,
    /// The apparatus's faults that it stands for, all alike here; none for a
    /// kit as it should be.
    pub(super) faults: &'static [Cause],
    /// Index of its water among [`States::waters`]; 0 for a string.
    pub(super) water: usize,
    /// Standard deviation of the surface tension about the water's, N/m.
    pub(super) tension_sd: f64,
    /// Standard deviation of ln h about the water's.
    pub(super) depth_sd: f64,
    /// Shift of ln λ at every frequency (lamp; string's speed), and its
    /// standard deviation.
    pub(super) level: f64,
    pub(super) level_sd: f64,
    /// Shift of ln f on the dial, and its standard deviation beside the usual
    /// one.
    pub(super) dial: f64,
    pub(super) dial_sd: f64,
}

/// All states of one kit.
#[derive(Clone, Debug)]
pub(super) struct States {
    pub(super) waters: Vec<Water>,
    pub(super) cells: Vec<Cell>,
}

/// What was recorded of a kit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Apparatus {
    /// A tank, with its depth (m) and the unit of the depth's last digit (m),
    /// where it was recorded.
    Tank(Option<(f64, f64)>),
    /// A string, and whether masses foretell its speed.
    String {
        /// Whether √(T/μ) is known.
        is_foretold: bool,
    },
}

/// A kernel of a prior: its share, where it is, how wide.
#[derive(Clone, Copy, Debug)]
struct Kernel {
    share: f64,
    at: f64,
    sd: f64,
}

/// Width of a kernel in bins. A wider one leaks more past the prior's ends, a
/// narrower one ripples more between: at 0.36 a flat prior's sum of kernels
/// ripples by 15 %, before the readings' own errors smooth it.
const OVERLAP: f64 = 0.36;

/// Bins of a uniform distribution.
fn uniform(range: &RangeInclusive<f64>, bins: u32, share: f64) -> Vec<Kernel> {
    let width = (range.end() - range.start()) / f64::from(bins);
    let kernel = |bin: u32| Kernel {
        share: share / f64::from(bins),
        at: range.start() + width * (f64::from(bin) + 0.5),
        sd: OVERLAP * width,
    };
    (0..bins).map(kernel).collect()
}

fn in_logs(range: &RangeInclusive<f64>) -> RangeInclusive<f64> {
    range.start().ln()..=range.end().ln()
}

/// Bins of the cut normal of a school tank's surface tension.
fn tensions(bins: u32) -> Vec<Kernel> {
    let normal = Normal::new(prior::SURFACE_TENSION_MEAN, prior::SURFACE_TENSION_SD)
        .unwrap_or_else(|_| Normal::standard());
    let range = &prior::SURFACE_TENSION;
    let whole = normal.cdf(*range.end()) - normal.cdf(*range.start());
    let mut kernels = uniform(range, bins, 1.0);
    let half = (range.end() - range.start()) / f64::from(bins) / 2.0;
    for kernel in &mut kernels {
        let mass = normal.cdf(kernel.at + half) - normal.cdf(kernel.at - half);
        kernel.share = mass / whole;
    }
    kernels
}

/// Bins of ln h where it was not recorded: of the usual depths, then of the
/// thin tail.
fn depths(usual: u32, deep: u32) -> Vec<Kernel> {
    let share = prior::USUAL_DEPTH_SHARE;
    let mut kernels = uniform(&in_logs(&prior::USUAL_DEPTH), usual, share);
    kernels.extend(uniform(&in_logs(&prior::DEEP_TAIL), deep, 1.0 - share));
    kernels
}

impl States {
    /// The states of a kit. `is_shared`: whether several sheets tell of it, so
    /// that a string's speed must be a state and not each sheet's own unknown.
    pub(super) fn of(apparatus: Apparatus, is_shared: bool) -> Self {
        match apparatus {
            Apparatus::Tank(depth) => tank(depth),
            Apparatus::String { is_foretold } => Self {
                waters: Vec::new(),
                cells: string(is_foretold, is_shared),
            },
        }
    }
}

/// Collects cells, and their waters once each.
struct Collector {
    states: States,
}

impl Collector {
    /// Every pair of a surface tension and a depth, in a state of the lamp and
    /// the dial.
    fn add(&mut self, tensions: &[Kernel], depths: &[Kernel], state: Cell) {
        for tension in tensions {
            for depth in depths {
                let water = Water {
                    surface_tension: tension.at,
                    ..Water::clean(20.0, depth.at.exp())
                };
                let water = self.water(water);
                self.states.cells.push(Cell {
                    weight: state.weight * tension.share * depth.share,
                    water,
                    tension_sd: tension.sd,
                    depth_sd: depth.sd,
                    ..state
                });
            }
        }
    }

    fn water(&mut self, water: Water) -> usize {
        let waters = &mut self.states.waters;
        waters.iter().position(|w| *w == water).unwrap_or_else(|| {
            waters.push(water);
            waters.len() - 1
        })
    }
}

/// A kit as it should be.
pub(super) const SOUND: Cell = Cell {
    weight: 1.0,
    faults: &[],
    water: 0,
    tension_sd: 0.0,
    depth_sd: 0.0,
    level: 0.0,
    level_sd: 0.0,
    dial: 0.0,
    dial_sd: 0.0,
};

fn tank(recorded: Option<(f64, f64)>) -> States {
    let mut to = Collector {
        states: States {
            waters: Vec::new(),
            cells: Vec::new(),
        },
    };
    let at_recorded = |(depth, digit): (f64, f64)| Kernel {
        share: 1.0,
        at: depth.ln(),
        // A depth below its own error is not known.
        sd: (prior::DEPTH_SD / depth)
            .hypot(digit / (12.0_f64.sqrt() * depth))
            .min(1.0),
    };
    let (fine, coarse) = match recorded {
        Some(depth) => (vec![at_recorded(depth)], vec![at_recorded(depth)]),
        None => (depths(3, 1), depths(1, 1)),
    };
    let fault = |faults, share: f64| Cell {
        weight: prior::APPARATUS * share,
        faults,
        ..SOUND
    };
    // Where the depth is known there are states to spare.
    let rough = tensions(if recorded.is_some() { 3 } else { 2 });
    let faults = if recorded.is_some() { 4.0 } else { 3.0 };
    let sound = Cell {
        weight: 1.0 - faults * prior::APPARATUS,
        ..SOUND
    };
    to.add(&tensions(6), &fine, sound);
    let dirt = uniform(&prior::DIRTY_SURFACE_TENSION, 4, 1.0);
    to.add(&dirt, &coarse, fault(&[Cause::DirtyWater], 1.0));
    if recorded.is_some() {
        let off = uniform(&in_logs(&prior::DEPTH_OFF), 6, 1.0);
        to.add(&rough, &off, fault(&[Cause::DepthOff], 1.0));
    }
    for factor in prior::FACTORS_OFF {
        let lamp = Cell {
            level: factor,
            level_sd: prior::FACTOR_OFF_SD,
            ..fault(&[Cause::LampOff], 0.25)
        };
        let dial = Cell {
            dial: factor,
            dial_sd: prior::FACTOR_OFF_SD,
            ..fault(&[Cause::DialOff], 0.25)
        };
        to.add(&rough, &coarse, lamp);
        to.add(&rough, &coarse, dial);
    }
    to.states
}

/// Half the range of a string's speed that is cut into cells, in standard
/// deviations.
const REACH: f64 = 4.5;

/// Width of such a cell in ln v. A twentieth parts a loop in eight from none.
const STRING_BIN: f64 = 0.05;

fn string(is_foretold: bool, is_shared: bool) -> Vec<Cell> {
    if !is_foretold {
        // A speed of which nothing is known cannot be wrong.
        return levels(prior::UNKNOWN_STRING_SPEED_SD, is_shared, SOUND);
    }
    let share = 2.0 * prior::APPARATUS;
    let sound = Cell {
        weight: 1.0 - share,
        ..SOUND
    };
    let off = Cell {
        weight: share,
        faults: &[Cause::StringStretched, Cause::DialOff],
        ..SOUND
    };
    let mut cells = levels(prior::STRING_SPEED_SD, is_shared, sound);
    cells.extend(levels(prior::STRING_OFF_SD, is_shared, off));
    cells
}

/// A normal level: one cell where it is the sheet's alone, bins of it where it
/// is shared.
fn levels(sd: f64, is_shared: bool, state: Cell) -> Vec<Cell> {
    if !is_shared {
        return vec![Cell {
            level_sd: sd,
            ..state
        }];
    }
    let Ok(normal) = Normal::new(0.0, sd) else {
        return Vec::new();
    };
    let mut cells = Vec::new();
    let mut low = -REACH * sd;
    while low < REACH * sd {
        cells.push(Cell {
            weight: state.weight * (normal.cdf(low + STRING_BIN) - normal.cdf(low)),
            level: low + STRING_BIN / 2.0,
            level_sd: OVERLAP * STRING_BIN,
            ..state
        });
        low += STRING_BIN;
    }
    cells
}
