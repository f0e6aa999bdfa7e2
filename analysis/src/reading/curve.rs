//! λ at every frequency that the sheets of a kit need, worked out once.

use crate::method::model::state::{Point, States};

/// λ of every frequency that some hypothesis of a kit's sheets needs, on each
/// of its curves.
#[derive(Clone, Debug)]
pub(super) struct Curves {
    frequencies: Vec<f64>,
    /// By curve, then frequency.
    points: Vec<Vec<Point>>,
}

impl Curves {
    /// For some frequencies (Hz).
    pub(super) fn of(states: &States, mut frequencies: Vec<f64>) -> Self {
        frequencies.sort_by(f64::total_cmp);
        frequencies.dedup_by(|one, other| one.total_cmp(other).is_eq());
        let curves = states.curves.iter();
        Self {
            points: curves
                .map(|curve| frequencies.iter().map(|f| curve.at(*f)).collect())
                .collect(),
            frequencies,
        }
    }

    /// On one of the curves, at one of those frequencies (Hz).
    pub(super) fn at(&self, curve: usize, frequency: f64) -> Point {
        let at = self.frequencies.partition_point(|f| *f < frequency);
        self.points[curve][at]
    }
}
