//! Distributions of readings, and grids to integrate over.

use std::sync::OnceLock;

use statrs::function::erf::erfc;

/// Steps of the table for each standard deviation.
const STEPS: f64 = 512.0;
/// Where the table ends, standard deviations.
const END: f64 = 8.0;

/// The normal's distribution function, from a table: good to 1e-7, which is
/// far below any prior here.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "an index between nought and the table's length"
)]
pub(super) fn cumulative(x: f64) -> f64 {
    static TABLE: OnceLock<Vec<f64>> = OnceLock::new();
    let table = TABLE.get_or_init(|| {
        (0..=8193_u32)
            .map(|step| 0.5 * erfc((END - f64::from(step) / STEPS) / std::f64::consts::SQRT_2))
            .collect()
    });
    let place = (x.clamp(-END, END) + END) * STEPS;
    let at = place.floor();
    let low = table[at as usize];
    low + (place - at) * (table[at as usize + 1] - low)
}

pub(super) fn normal(x: f64, sd: f64) -> f64 {
    (-0.5 * (x / sd).powi(2)).exp() / (sd * std::f64::consts::TAU.sqrt())
}

/// Density at `x` of a uniform error of half-width `half` plus a normal one.
pub(super) fn uniform_and_normal(x: f64, half: f64, sd: f64) -> f64 {
    if half < 1e-3 * sd {
        return normal(x, sd);
    }
    (cumulative((x + half) / sd) - cumulative((x - half) / sd)) / (2.0 * half)
}

/// Density at `x` of two uniform errors of half-widths `one` and `two` plus a
/// normal one.
pub(super) fn uniforms_and_normal(x: f64, one: f64, two: f64, sd: f64) -> f64 {
    // The integral of the distribution function.
    let ramp = |x: f64| {
        let z = x / sd;
        x * cumulative(z) + sd * sd * normal(x, sd)
    };
    let sum = ramp(x + one + two) - ramp(x + one - two) - ramp(x - one + two) + ramp(x - one - two);
    (sum / (4.0 * one * two)).max(0.0)
}

/// Midpoints of so many equal cells, and the width of one.
pub(super) fn midpoints(low: f64, high: f64, count: u32) -> (impl Iterator<Item = f64>, f64) {
    let width = (high - low) / f64::from(count);
    let points = (0..count).map(move |at| low + (f64::from(at) + 0.5) * width);
    (points, width)
}

/// Points spread evenly over ±`bounds` of a share, as shifts of a logarithm,
/// each with its probability.
pub(super) fn either_way(bounds: (f64, f64), count: u32) -> Vec<(f64, f64)> {
    let chance = 0.5 / f64::from(count);
    let sizes: Vec<f64> = midpoints(bounds.0, bounds.1, count).0.collect();
    let both = sizes.iter().flat_map(|size| [*size, -size]);
    both.map(|off| ((1.0 + off).ln(), chance)).collect()
}
