//! Waves on water and on strings, by arithmetic of the simulator's own.

use std::f64::consts::TAU;

/// Standard gravity, m/s².
const G: f64 = 9.806_65;

/// Density of tap water at room temperature, kg/m³.
pub const DENSITY: f64 = 998.2;

/// The wavelength (m) of ripples on water of a surface tension (N/m) and a
/// depth (m) at a frequency (Hz, up to some hundreds), by halving until the
/// dispersion relation holds.
#[must_use]
pub fn ripple(tension: f64, depth: f64, frequency: f64) -> f64 {
    let wanted = (TAU * frequency).powi(2);
    let (mut low, mut high) = (1e-3_f64, 20_000.0_f64);
    for _ in 0..70 {
        let k = f64::midpoint(low, high);
        if (G * k + tension / DENSITY * k.powi(3)) * (k * depth).tanh() > wanted {
            high = k;
        } else {
            low = k;
        }
    }
    TAU / low
}

/// The speed (m/s) on a string: grams hung on it, grams and metres of the
/// piece that was weighed.
#[must_use]
pub fn string(hung: f64, mass: f64, weighed: f64) -> f64 {
    (hung * G * weighed / mass).sqrt()
}
