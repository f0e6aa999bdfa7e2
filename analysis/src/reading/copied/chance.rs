//! The chance that readings agree.

use statrs::function::erf::erf;
use std::f64::consts::{PI, SQRT_2};

/// The chance that two readings of lengths that differ by `apart` show the
/// same figure, where each has a standard deviation `sd` and is rounded to a
/// `step` that lies anywhere.
///
/// E (1 − |d|/r)⁺ for a normal d: the second difference of ∫Φ.
pub(super) fn of_agreeing(step: f64, sd: f64, apart: f64) -> f64 {
    let spread = SQRT_2 * sd;
    if apart.abs() > step + 8.0 * spread {
        return 0.0;
    }
    let ramp = |d: f64| integral_of_normal((apart + d) / spread);
    (spread / step * (ramp(step) - 2.0 * ramp(0.0) + ramp(-step))).clamp(0.0, 1.0)
}

/// ∫Φ from minus infinity: x Φ(x) + φ(x).
fn integral_of_normal(x: f64) -> f64 {
    x * 0.5 * (1.0 + erf(x / SQRT_2)) + (-0.5 * x * x).exp() / (2.0 * PI).sqrt()
}

#[cfg(test)]
mod tests {
    use super::of_agreeing;

    /// Against a sum over many places of the step and both readings' errors.
    #[test]
    fn chance_is_that_of_two_rounded_readings() {
        let normal = |x: f64| (-0.5 * x * x).exp() / (2.0 * std::f64::consts::PI).sqrt();
        for (sd, apart) in [(0.3, 0.0), (1.0, 0.0), (1.0, 1.3), (2.0, -0.7)] {
            let (fine, places) = (0.02, 50);
            let mut summed = 0.0;
            for place in 0..places {
                let phase = (f64::from(place) + 0.5) * fine;
                // Each step in reach: the product of both readings' chances.
                for bin in -20..20_i32 {
                    let share = |centre: f64| -> f64 {
                        (0..places)
                            .map(|i| f64::from(bin) + (f64::from(i) + 0.5) * fine)
                            .map(|x| normal((x - centre) / sd) / sd * fine)
                            .sum()
                    };
                    summed += share(phase) * share(phase + apart) * fine;
                }
            }
            let found = of_agreeing(1.0, sd, apart);
            assert!(
                (found - summed).abs() < 2e-3,
                "{sd} {apart}: {found} {summed}"
            );
        }
    }

    #[test]
    fn coarse_steps_nearly_always_agree_and_fine_ones_hardly_ever() {
        assert!(of_agreeing(1.0, 0.001, 0.0) > 0.99, "coarse");
        let fine = of_agreeing(0.01, 1.0, 0.0);
        let expected = 0.01 / (2.0 * std::f64::consts::PI.sqrt());
        assert!((fine / expected - 1.0).abs() < 1e-3, "{fine} {expected}");
    }
}
