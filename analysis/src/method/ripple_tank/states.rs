//! The states that a tank may be in: its water, depth, lamp and dial.

use statrs::distribution::{ContinuousCDF, Normal};

use crate::cause::Cause;
use crate::field::Field;
use crate::method::model::Recorded;
use crate::method::model::state::{
    Cell, Curve, Fault, Kernel, SOUND, States, in_logs, uniform,
};
use crate::method::prior;
use crate::wave::water::Water;

const DIRTY_WATER: Fault = Fault::alone(Cause::DirtyWater, Field::Span);
const DEPTH_OFF: Fault = Fault::alone(Cause::DepthOff, Field::Depth);
const LAMP_OFF: Fault = Fault::alone(Cause::LampOff, Field::ScaleImage);
const DIAL_OFF: Fault = Fault::alone(Cause::DialOff, Field::Dial);

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

/// Collects cells, and their waters once each.
#[derive(Default)]
struct Collector {
    waters: Vec<Water>,
    cells: Vec<Cell>,
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
                let curve = self.water(water);
                self.cells.push(Cell {
                    weight: state.weight * tension.share * depth.share,
                    curve,
                    bend_sds: [tension.sd, depth.sd],
                    ..state
                });
            }
        }
    }

    fn water(&mut self, water: Water) -> usize {
        let waters = &mut self.waters;
        waters.iter().position(|w| *w == water).unwrap_or_else(|| {
            waters.push(water);
            waters.len() - 1
        })
    }
}

/// The states of a tank with the depth that was recorded of it.
pub(super) fn of(recorded: Option<Recorded>) -> States {
    let mut to = Collector::default();
    let at_recorded = |depth: Recorded| Kernel {
        share: 1.0,
        at: depth.value.ln(),
        // A depth below its own error is not known.
        sd: (prior::DEPTH_SD / depth.value)
            .hypot(depth.digit / (12.0_f64.sqrt() * depth.value))
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
    to.add(&dirt, &coarse, fault(&[DIRTY_WATER], 1.0));
    if recorded.is_some() {
        let off = uniform(&in_logs(&prior::DEPTH_OFF), 6, 1.0);
        to.add(&rough, &off, fault(&[DEPTH_OFF], 1.0));
    }
    for factor in prior::FACTORS_OFF {
        let lamp = Cell {
            level: factor,
            level_sd: prior::FACTOR_OFF_SD,
            ..fault(&[LAMP_OFF], 0.25)
        };
        let dial = Cell {
            dial: factor,
            dial_sd: prior::FACTOR_OFF_SD,
            ..fault(&[DIAL_OFF], 0.25)
        };
        to.add(&rough, &coarse, lamp);
        to.add(&rough, &coarse, dial);
    }
    let curves = to.waters.into_iter();
    States {
        curves: curves.map(|water| Box::new(water) as Box<dyn Curve>).collect(),
        cells: to.cells,
    }
}

