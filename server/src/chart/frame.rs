//! The sheet of graph paper: where a value lands in the drawing.
//!
//! Lengths are units of the drawing's own view box, 560 wide. A wide screen
//! shows one as somewhat more than a pixel, a phone as about half a pixel;
//! there the stylesheet makes the text larger, and the margins leave room
//! for that.

use super::scale::{Scale, Tick, drawable};

/// The whole drawing.
pub const WIDTH: f64 = 560.0;
/// The whole drawing.
pub const HEIGHT: f64 = 430.0;
/// The axis of f.
pub const LEFT: f64 = 80.0;
/// The end of the axis of 1/λ.
pub const RIGHT: f64 = 530.0;
/// The end of the axis of f.
pub const TOP: f64 = 44.0;
/// The axis of 1/λ.
pub const BOTTOM: f64 = 360.0;

/// Steps that fit along and up without crowding their labels.
const MOST_ALONG: u32 = 10;
const MOST_UP: u32 = 8;

/// A value this many times the middle one does not set the scale: one slip
/// of a power of ten would squeeze all other points into a corner.
const FAR: f64 = 5.0;

/// A place in the drawing, to a tenth of a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// From the left.
    pub x: f64,
    /// From the top.
    pub y: f64,
}

impl Place {
    /// To a tenth, which no eye can tell from the exact place.
    #[must_use]
    pub fn new(x: f64, y: f64) -> Self {
        let tenth = |length: f64| (length * 10.0).round() / 10.0;
        Self {
            x: tenth(x),
            y: tenth(y),
        }
    }
}

/// The two axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Frame {
    /// The axis of 1/λ, in 1/m.
    pub along: Scale,
    /// The axis of f, in Hz.
    pub up: Scale,
}

impl Frame {
    /// Axes for points (1/λ in 1/m, f in Hz); `None` where none can be drawn.
    #[must_use]
    pub fn around(points: &[(f64, f64)]) -> Option<Self> {
        let along: Vec<_> = points.iter().map(|(x, _)| *x).collect();
        let up: Vec<_> = points.iter().map(|(_, y)| *y).collect();
        Some(Self {
            along: Scale::to_cover(largest_shown(&along)?, MOST_ALONG)?,
            up: Scale::to_cover(largest_shown(&up)?, MOST_UP)?,
        })
    }

    /// Whether a point is on the paper.
    #[must_use]
    pub fn holds(&self, (x, y): (f64, f64)) -> bool {
        drawable(x) && drawable(y) && x <= self.along.end() && y <= self.up.end()
    }

    /// Where a point lands; one beyond the paper, on its edge.
    #[must_use]
    pub fn place(&self, (x, y): (f64, f64)) -> Place {
        Place::new(
            across((x / self.along.end()).clamp(0.0, 1.0)),
            upward((y / self.up.end()).clamp(0.0, 1.0)),
        )
    }
}

/// The numbered lines of an axis with their places.
#[must_use]
pub fn placed(ticks: &[Tick], place: fn(f64) -> f64) -> Vec<(f64, String)> {
    ticks
        .iter()
        .map(|tick| (place(tick.share), tick.text.clone()))
        .collect()
}

/// From the left, for a share of the axis of 1/λ.
#[must_use]
pub fn across(share: f64) -> f64 {
    Place::new(LEFT + share * (RIGHT - LEFT), 0.0).x
}

/// From the top, for a share of the axis of f.
#[must_use]
pub fn upward(share: f64) -> f64 {
    Place::new(0.0, BOTTOM - share * (BOTTOM - TOP)).y
}

fn largest_shown(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = *sorted.get(sorted.len() / 2)?;
    sorted.into_iter().rfind(|value| *value <= FAR * middle)
}
