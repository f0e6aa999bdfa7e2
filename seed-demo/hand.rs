//! Hands and eyes: scatter from a generator with a seed, so that the same
//! plan always gives the same readings.

use rand::rngs::StdRng;
use rand::{Rng as _, SeedableRng as _};

/// One group's luck.
#[derive(Debug)]
pub(crate) struct Hand(StdRng);

impl Hand {
    /// The hand of one group, told by a number of its own.
    pub(crate) fn new(group: u64) -> Self {
        Self(StdRng::seed_from_u64(group))
    }

    /// A normal deviate about nought (Box and Muller's way).
    pub(crate) fn off_by(&mut self, sd: f64) -> f64 {
        // 1 − u lies above nought, so that its logarithm is finite.
        let (u, turn): (f64, f64) = (self.0.random(), self.0.random());
        sd * (-2.0 * (1.0 - u).ln()).sqrt() * (std::f64::consts::TAU * turn).cos()
    }

    /// A factor near 1.
    pub(crate) fn factor(&mut self, sd: f64) -> f64 {
        1.0 + self.off_by(sd)
    }

    /// A whole number from 0 up to, but not including, `end`.
    pub(crate) fn below(&mut self, end: usize) -> usize {
        self.0.random_range(0..end.max(1))
    }

    /// A share from 0 up to 1.
    pub(crate) fn share(&mut self) -> f64 {
        self.0.random()
    }
}
