//! Tanks: what is known beforehand of the water, the dial and the lamp, on
//! grids.

use analysis::reading::Cause;
use analysis::wave::water::Water;
use simulator::{physics, school};

use super::super::classes::Event;
use super::density::{either_way, midpoints, normal, uniform_and_normal};
use super::tank::{Bench, ROUNDING};

/// Water, its probability (that of the recorded depth in it) and the dial's
/// shift.
pub(super) struct Node {
    pub(super) water: Water,
    pub(super) dial: f64,
    pub(super) weight: f64,
}

/// A fault of the apparatus, or none.
pub(super) struct Fault {
    pub(super) event: Vec<Event>,
    pub(super) nodes: Vec<Node>,
    /// Shifts of the level, each with its probability.
    pub(super) shifts: Vec<(f64, f64)>,
}

impl Bench<'_> {
    fn tensions(&self, dirty: bool) -> Vec<(f64, f64)> {
        let count = if dirty { 8 } else { 10 };
        if dirty {
            let (low, high) = school::DIRTY_TENSION;
            let chance = 1.0 / f64::from(count);
            return midpoints(low, high, count).0.map(|t| (t, chance)).collect();
        }
        let (low, high) = school::TENSION_CUT;
        let (mean, sd) = school::TENSION;
        let raw: Vec<_> = midpoints(low, high, count)
            .0
            .map(|t| (t, normal(t - mean, sd)))
            .collect();
        let total: f64 = raw.iter().map(|(_, w)| w).sum();
        raw.into_iter().map(|(t, w)| (t, w / total)).collect()
    }

    /// Depths (mm) of any tank, with their probability.
    fn any_depth(count: u32) -> Vec<(f64, f64)> {
        let part = |(low, high): (f64, f64), count: u32, share: f64| {
            let points = midpoints(low.ln(), high.ln(), count).0;
            points
                .map(|ln| (ln.exp(), share / f64::from(count)))
                .collect::<Vec<_>>()
        };
        let mut all = part(school::USUAL_DEPTH, count, 1.0 - school::DEEP_SHARE);
        all.extend(part(school::DEEP, count / 2, school::DEEP_SHARE));
        all
    }

    fn depth_sd(&self) -> f64 {
        self.noise * self.school.hand.depth
    }

    fn depths(&self, count: u32) -> Vec<(f64, f64)> {
        let Some(written) = self.depth else {
            return Self::any_depth(count);
        };
        let reach = 0.5 + 4.0 * self.depth_sd();
        let low = (written - reach).max(school::USUAL_DEPTH.0);
        let high = (written + reach).min(school::DEEP.1);
        if low >= high {
            return vec![];
        }
        let (points, width) = midpoints(low, high, count);
        points
            .map(|depth| {
                let (range, share) = if depth < school::USUAL_DEPTH.1 {
                    (school::USUAL_DEPTH, 1.0 - school::DEEP_SHARE)
                } else {
                    (school::DEEP, school::DEEP_SHARE)
                };
                let prior = share / (depth * (range.1 / range.0).ln());
                let seen = uniform_and_normal(written - depth, 0.5, self.depth_sd());
                (depth, prior * seen * width)
            })
            .collect()
    }

    /// Depths where another one was written down.
    fn depths_off(&self, written: f64) -> Vec<(f64, f64)> {
        let sd = self.depth_sd().hypot(ROUNDING.sqrt());
        Self::any_depth(24)
            .into_iter()
            .map(|(depth, prior)| {
                let seen = school::DEPTH_OFF.iter().map(|(low, high)| {
                    let middle = depth * (low + high) / 2.0;
                    0.5 * uniform_and_normal(written - middle, depth * (high - low) / 2.0, sd)
                });
                (depth, prior * seen.sum::<f64>())
            })
            .collect()
    }

    pub(super) fn faults(&self) -> Vec<Fault> {
        let each = self.school.faults / 4.0;
        let unseen = if self.depth.is_none() { each } else { 0.0 };
        let still = [(0.0, 1.0)];
        let fault =
            |cause: Option<Cause>, prior: f64, depths: &[(f64, f64)], dials: &[(f64, f64)]| Fault {
                event: cause.map(|cause| (cause, None)).into_iter().collect(),
                nodes: nodes(
                    prior,
                    &self.tensions(cause == Some(Cause::DirtyWater)),
                    depths,
                    dials,
                ),
                shifts: still.to_vec(),
            };
        let depths = self.depths(24);
        let mut all = vec![
            fault(None, 1.0 - self.school.faults + unseen, &depths, &still),
            fault(Some(Cause::DirtyWater), each, &depths, &still),
            fault(
                Some(Cause::DialOff),
                each,
                &self.depths(16),
                &either_way(school::FACTOR_OFF, 4),
            ),
        ];
        let mut lamp = fault(Some(Cause::LampOff), each, &depths, &still);
        lamp.shifts = either_way(school::FACTOR_OFF, 8);
        all.push(lamp);
        if let Some(written) = self.depth {
            let depths = self.depths_off(written);
            all.push(fault(Some(Cause::DepthOff), each, &depths, &still));
        }
        all
    }
}

fn nodes(
    prior: f64,
    tensions: &[(f64, f64)],
    depths: &[(f64, f64)],
    dials: &[(f64, f64)],
) -> Vec<Node> {
    let mut all = Vec::new();
    for (surface_tension, tension_chance) in tensions {
        for (depth, depth_chance) in depths {
            for (dial, dial_chance) in dials {
                all.push(Node {
                    water: Water {
                        surface_tension: *surface_tension,
                        density: physics::DENSITY,
                        depth: depth / 1000.0,
                    },
                    dial: *dial,
                    weight: prior * tension_chance * depth_chance * dial_chance,
                });
            }
        }
    }
    all
}
