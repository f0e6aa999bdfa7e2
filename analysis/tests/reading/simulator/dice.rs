//! Draws from the few distributions that the simulator needs.

use rand::Rng;
use rand::rngs::StdRng;

/// A normal number, mean 0 and standard deviation 1 (Box and Muller).
pub(crate) fn normal(rng: &mut StdRng) -> f64 {
    let radius = (-2.0 * (1.0 - rng.random::<f64>()).ln()).sqrt();
    radius * (std::f64::consts::TAU * rng.random::<f64>()).cos()
}

/// An error of standard deviation 1: normal, or Student's t with more than two
/// degrees of freedom, scaled.
pub(crate) fn error(rng: &mut StdRng, tails: Option<u32>) -> f64 {
    let z = normal(rng);
    let Some(freedom) = tails else {
        return z;
    };
    let chi: f64 = (0..freedom).map(|_| normal(rng).powi(2)).sum();
    let freedom = f64::from(freedom);
    z / (chi / freedom).sqrt() / (freedom / (freedom - 2.0)).sqrt()
}

pub(crate) fn between(rng: &mut StdRng, (low, high): (f64, f64)) -> f64 {
    rng.random_range(low..high)
}

/// Uniform in the logarithm.
pub(crate) fn log_between(rng: &mut StdRng, (low, high): (f64, f64)) -> f64 {
    rng.random_range(low.ln()..high.ln()).exp()
}

/// Between the bounds, with either sign.
pub(crate) fn either_way(rng: &mut StdRng, bounds: (f64, f64)) -> f64 {
    let size = between(rng, bounds);
    if rng.random_bool(0.5) { size } else { -size }
}

/// A step of the instrument, uniform from −½ to ½.
pub(crate) fn half_step(rng: &mut StdRng) -> f64 {
    rng.random_range(-0.5..0.5)
}
