//! Chance: draws from a few distributions, by a generator with a seed.

use std::f64::consts::TAU;

use rand::distr::uniform::{SampleRange, SampleUniform};
use rand::rngs::StdRng;
use rand::{Rng as _, SeedableRng as _};

/// A generator. The same seed gives the same draws.
#[derive(Clone, Debug)]
pub struct Dice(StdRng);

impl Dice {
    /// Begins with a seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self(StdRng::seed_from_u64(seed))
    }

    /// Draws from 0 up to, but not including, 1.
    pub fn share(&mut self) -> f64 {
        self.0.random()
    }

    /// Says yes with a probability.
    pub fn chance(&mut self, probability: f64) -> bool {
        self.0.random_bool(probability)
    }

    /// Draws from a range that is not empty.
    pub fn within<T: SampleUniform>(&mut self, range: impl SampleRange<T>) -> T {
        self.0.random_range(range)
    }

    /// Draws from `low` to `high`; either of them where they are the same.
    pub fn between(&mut self, (low, high): (f64, f64)) -> f64 {
        if low < high {
            self.within(low..high)
        } else {
            low
        }
    }

    /// Draws evenly in the logarithm.
    pub fn log_between(&mut self, (low, high): (f64, f64)) -> f64 {
        self.within(low.ln()..high.ln()).exp()
    }

    /// Draws a size between the bounds, with either sign.
    pub fn either_way(&mut self, bounds: (f64, f64)) -> f64 {
        let size = self.between(bounds);
        if self.chance(0.5) { size } else { -size }
    }

    /// Draws a step of an instrument, evenly from −½ to ½.
    pub fn half_step(&mut self) -> f64 {
        self.within(-0.5..0.5)
    }

    /// Picks one of several, at least one.
    pub fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.within(0..of.len())]
    }

    /// Picks so many different numbers below `of`, in no order.
    pub fn some(&mut self, count: usize, of: usize) -> Vec<usize> {
        let mut picked = Vec::new();
        while picked.len() < count.min(of) {
            let one = self.within(0..of);
            if !picked.contains(&one) {
                picked.push(one);
            }
        }
        picked
    }

    /// Draws a normal number, mean 0 and standard deviation 1 (Box and
    /// Muller).
    pub fn normal(&mut self) -> f64 {
        // 1 − u lies above nought, so that its logarithm is finite.
        let radius = (-2.0 * (1.0 - self.share()).ln()).sqrt();
        radius * (TAU * self.share()).cos()
    }

    /// Draws a factor near 1.
    pub fn factor(&mut self, sd: f64) -> f64 {
        1.0 + sd * self.normal()
    }

    /// Draws an error of standard deviation 1: normal, or Student's t with
    /// more than two degrees of freedom, scaled.
    pub fn error(&mut self, tails: Option<u32>) -> f64 {
        let z = self.normal();
        let Some(freedom) = tails else {
            return z;
        };
        let chi: f64 = (0..freedom).map(|_| self.normal().powi(2)).sum();
        let freedom = f64::from(freedom);
        z / (chi / freedom).sqrt() / (freedom / (freedom - 2.0)).sqrt()
    }
}
