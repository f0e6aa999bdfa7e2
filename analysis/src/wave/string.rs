//! Waves on a stretched string.

/// The speed (m/s) of waves on a string held taut by a hanging mass: √(T/μ),
/// with the tension T = `hanging_mass` × `g` (N) and the mass per length
/// μ = `string_mass`/`string_length` (kg/m).
///
/// Masses in kg, the length in m, `g` in m/s² (see
/// [`G_STANDARD`](super::G_STANDARD)). All four must be above zero; NaN
/// otherwise.
///
/// # Simplifications
/// The string is thin, limp and hardly stretched, it hangs from a pulley
/// without friction, and its own weight adds nothing to the tension.
///
/// ```
/// use analysis::wave::{G_STANDARD, string};
///
/// // 100 g on 2 m of string that weighs 2 g: a newton on a gram a metre.
/// let v = string::speed(0.1, 0.002, 2.0, G_STANDARD);
/// assert!((v - 31.3).abs() < 0.05);
/// ```
#[must_use]
pub fn speed(hanging_mass: f64, string_mass: f64, string_length: f64, g: f64) -> f64 {
    let positive = [hanging_mass, string_mass, string_length, g]
        .into_iter()
        .all(|x| x > 0.0);
    if !positive {
        return f64::NAN;
    }
    let tension = hanging_mass * g;
    let mass_per_length = string_mass / string_length;
    (tension / mass_per_length).sqrt()
}

#[cfg(test)]
mod tests {
    use super::speed;

    #[test]
    fn four_times_the_load_doubles_the_speed() {
        let once = speed(0.1, 0.002, 2.0, 10.0);
        let twice = speed(0.4, 0.002, 2.0, 10.0);
        // A few roundings of 1.1e-16 each.
        assert!((twice / once - 2.0).abs() < 1e-15, "{once} {twice}");
    }

    #[test]
    fn nothing_hung_or_no_string_gives_no_speed() {
        assert!(speed(0.0, 0.002, 2.0, 10.0).is_nan());
        assert!(speed(0.1, 0.0, 2.0, 10.0).is_nan());
        assert!(speed(0.1, 0.002, -2.0, 10.0).is_nan());
    }
}
