//! The physics, with arithmetic of its own.

use std::f64::consts::TAU;

/// The wavelength (m) of ripples on water of a surface tension (N/m) and a
/// depth (m) at a frequency (Hz), by halving until the dispersion relation
/// holds.
pub(super) fn ripple(frequency: f64, tension: f64, depth: f64) -> f64 {
    let (mut low, mut high) = (1.0_f64, 20_000.0_f64);
    for _ in 0..60 {
        let k = f64::midpoint(low, high);
        let square = (9.807 * k + tension / 998.2 * k.powi(3)) * (k * depth).tanh();
        if square > (TAU * frequency).powi(2) {
            high = k;
        } else {
            low = k;
        }
    }
    TAU / low
}

/// The speed (m/s) on a string: mass hung (kg), mass per length (kg/m).
pub(super) fn string(hung: f64, per_metre: f64) -> f64 {
    (hung * 9.807 / per_metre).sqrt()
}
