//! The states that a kit may be in: its water, depth, lamp and dial, or its
//! string, cut into cells.
//!
//! The physics is a smooth curve, so within a cell it is taken as linear and
//! what is not known as normal: the evidence of a cell is then a closed form
//! (`likelihood.rs`). Kernels overlap enough that their sum is the prior to a
//! few per cent.

use std::fmt::Debug;
use std::ops::RangeInclusive;

use statrs::distribution::{ContinuousCDF, Normal};

use crate::cause::Cause;
use crate::field::Field;

/// ln λ (m) at one frequency in one state of a kit, and how it moves.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Point {
    pub(crate) value: f64,
    pub(crate) by_ln_frequency: f64,
    /// How it moves along the two things about the curve that are not known
    /// exactly (surface tension, ln depth).
    pub(crate) bends: [f64; 2],
}

/// λ over frequency, as a kit's physics has it.
pub(crate) trait Curve: Debug {
    /// ln λ at a frequency (Hz).
    fn at(&self, frequency: f64) -> Point;
}

/// Waves of one speed at every frequency: ln of it, in m/s.
#[derive(Clone, Copy, Debug)]
pub(crate) struct OneSpeed(pub(crate) f64);

impl Curve for OneSpeed {
    fn at(&self, frequency: f64) -> Point {
        Point {
            value: self.0 - frequency.ln(),
            by_ln_frequency: -1.0,
            bends: [0.0; 2],
        }
    }
}

/// A fault of the apparatus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Fault {
    pub(crate) cause: Cause,
    /// The box that it concerns.
    pub(crate) step: Field,
    /// Its share, where several faults are alike.
    pub(crate) share: f64,
}

impl Fault {
    /// One that no other is like.
    pub(crate) const fn alone(cause: Cause, step: Field) -> Self {
        Self {
            cause,
            step,
            share: 1.0,
        }
    }
}

/// One state of a kit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cell {
    /// Its prior probability.
    pub(crate) weight: f64,
    /// The apparatus's faults that it stands for, all alike here; none for a
    /// kit as it should be.
    pub(crate) faults: &'static [Fault],
    /// Index of its curve among [`States::curves`].
    pub(crate) curve: usize,
    /// Standard deviations along the curve's [`bends`](Point::bends).
    pub(crate) bend_sds: [f64; 2],
    /// Shift of ln λ at every frequency (lamp; string's speed), and its
    /// standard deviation.
    pub(crate) level: f64,
    pub(crate) level_sd: f64,
    /// Shift of ln f on the dial, and its standard deviation beside the usual
    /// one.
    pub(crate) dial: f64,
    pub(crate) dial_sd: f64,
}

/// All states of one kit.
#[derive(Debug, Default)]
pub(crate) struct States {
    pub(crate) curves: Vec<Box<dyn Curve>>,
    pub(crate) cells: Vec<Cell>,
}

/// A kernel of a prior: its share, where it is, how wide.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Kernel {
    pub(crate) share: f64,
    pub(crate) at: f64,
    pub(crate) sd: f64,
}

/// Width of a kernel in bins. A wider one leaks more past the prior's ends, a
/// narrower one ripples more between: at 0.36 a flat prior's sum of kernels
/// ripples by 15 %, before the readings' own errors smooth it.
const OVERLAP: f64 = 0.36;

/// Bins of a uniform distribution.
pub(crate) fn uniform(range: &RangeInclusive<f64>, bins: u32, share: f64) -> Vec<Kernel> {
    let width = (range.end() - range.start()) / f64::from(bins);
    let kernel = |bin: u32| Kernel {
        share: share / f64::from(bins),
        at: range.start() + width * (f64::from(bin) + 0.5),
        sd: OVERLAP * width,
    };
    (0..bins).map(kernel).collect()
}

pub(crate) fn in_logs(range: &RangeInclusive<f64>) -> RangeInclusive<f64> {
    range.start().ln()..=range.end().ln()
}

/// A kit as it should be.
pub(crate) const SOUND: Cell = Cell {
    weight: 1.0,
    faults: &[],
    curve: 0,
    bend_sds: [0.0; 2],
    level: 0.0,
    level_sd: 0.0,
    dial: 0.0,
    dial_sd: 0.0,
};

/// Half the range of a string's speed that is cut into cells, in standard
/// deviations.
const REACH: f64 = 4.5;

/// Width of such a cell in ln v. A twentieth parts a loop in eight from none.
const STRING_BIN: f64 = 0.05;

/// A normal level: one cell where it is the sheet's alone, bins of it where it
/// is shared.
pub(crate) fn levels(sd: f64, is_shared: bool, state: Cell) -> Vec<Cell> {
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
