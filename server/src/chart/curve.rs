//! The lines of a graph.

use super::frame::{Frame, Place};
use super::scale::drawable;

/// Places along a curve: enough for a smooth curve.
const PLACES: u32 = 60;

/// The speed (m/s) expected at a frequency (Hz); `None` where it is not
/// known.
pub type ExpectedSpeed<'a> = &'a dyn Fn(f64) -> Option<f64>;

/// The ends of the line f = slope × 1/λ, from the origin to the edge of the
/// paper, slope in m/s; nothing for a slope that leaves no line to see.
#[must_use]
pub fn through_origin(frame: &Frame, slope: f64) -> Vec<Place> {
    let reach = frame.along.end().min(frame.up.end() / slope);
    let end = (reach, reach * slope);
    if drawable(end.0) && drawable(end.1) {
        vec![frame.place((0.0, 0.0)), frame.place(end)]
    } else {
        Vec::new()
    }
}

/// The curve 1/λ = f / expected speed, as far as it is on the paper.
#[must_use]
pub fn expected(frame: &Frame, speed: ExpectedSpeed<'_>) -> Vec<Place> {
    (1..=PLACES)
        .map(|at| f64::from(at) / f64::from(PLACES) * frame.up.end())
        .filter_map(|f| Some((f / speed(f)?, f)))
        .filter(|point| frame.holds(*point))
        .map(|point| frame.place(point))
        .collect()
}
