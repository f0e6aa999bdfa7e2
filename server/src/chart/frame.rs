//! The sheet of graph paper: where a value lands in the drawing.
//!
//! Lengths are units of the drawing's own view box, 560 wide. A wide screen
//! shows one as somewhat more than a pixel, a phone as about half a pixel;
//! there the stylesheet makes the text larger, and the margins leave room
//! for that.

use super::drawing::{Axis, AxisLabel, Quantity};
use super::scale::{Scale, drawable};

/// The whole drawing.
pub const WIDTH: f64 = 560.0;
/// The whole drawing.
pub const HEIGHT: f64 = 430.0;
/// The axis up.
pub const LEFT: f64 = 80.0;
/// The end of the axis along.
pub const RIGHT: f64 = 530.0;
/// The end of the axis up.
pub const TOP: f64 = 44.0;
/// The axis along.
pub const BOTTOM: f64 = 360.0;

/// From so many numbers on, a phone shows every other one along.
const CROWDED: usize = 6;

/// A place in the drawing, to a tenth of a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// From the left.
    pub x: f64,
    /// From the top.
    pub y: f64,
}

impl Place {
    /// Rounds to a tenth, which no eye can tell from the exact place.
    #[must_use]
    pub fn new(x: f64, y: f64) -> Self {
        let [x, y] = [x, y].map(tenth);
        Self { x, y }
    }
}

fn tenth(length: f64) -> f64 {
    (length * 10.0).round() / 10.0
}

/// A scale laid from one place of the drawing to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ruler {
    /// What it measures.
    pub scale: Scale,
    from: f64,
    to: f64,
}

impl Ruler {
    /// Lays a scale between two places.
    #[must_use]
    pub fn between(from: f64, to: f64, scale: Scale) -> Self {
        Self { scale, from, to }
    }

    /// Lays a scale along the paper, from left to right.
    #[must_use]
    pub fn along(scale: Scale) -> Self {
        Self::between(LEFT, RIGHT, scale)
    }

    /// Lays a scale up the paper.
    #[must_use]
    pub fn up(scale: Scale) -> Self {
        Self::between(BOTTOM, TOP, scale)
    }

    /// Returns where a value lands; for one beyond the paper, its edge.
    #[must_use]
    pub fn at(&self, value: f64) -> f64 {
        self.of_share(self.scale.share(value))
    }

    fn of_share(&self, share: f64) -> f64 {
        tenth(self.from + share * (self.to - self.from))
    }

    /// Makes an axis without fine lines.
    #[must_use]
    pub fn axis(&self, quantity: impl Into<Quantity>) -> Axis {
        let ticks = self.scale.ticks();
        let is_crowded = self.from < self.to && ticks.len() > CROWDED;
        let numbers = ticks.into_iter().enumerate();
        let numbers = numbers.map(|(index, tick)| AxisLabel {
            at: self.of_share(tick.share),
            text: tick.text,
            minor: is_crowded && index % 2 == 1,
        });
        Axis {
            quantity: quantity.into(),
            numbers: numbers.collect(),
            ..Axis::default()
        }
    }

    /// Makes an axis with the fine lines of graph paper.
    #[must_use]
    pub fn graph_paper(&self, quantity: impl Into<Quantity>) -> Axis {
        let fine = self.scale.fine_lines().into_iter();
        Axis {
            fine: fine.map(|share| self.of_share(share)).collect(),
            ..self.axis(quantity)
        }
    }
}

/// The two axes of a sheet of paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The axis along.
    pub along: Ruler,
    /// The axis up.
    pub up: Ruler,
}

impl Frame {
    /// Lays two scales on the paper.
    #[must_use]
    pub fn new(along: Scale, up: Scale) -> Self {
        Self {
            along: Ruler::along(along),
            up: Ruler::up(up),
        }
    }

    /// Returns whether a point above nought is on the paper.
    #[must_use]
    pub fn holds(&self, (x, y): (f64, f64)) -> bool {
        drawable(x) && drawable(y) && x <= self.along.scale.end() && y <= self.up.scale.end()
    }

    /// Returns where a point lands; for one beyond the paper, on its edge.
    #[must_use]
    pub fn place(&self, (x, y): (f64, f64)) -> Place {
        Place::new(self.along.at(x), self.up.at(y))
    }
}
