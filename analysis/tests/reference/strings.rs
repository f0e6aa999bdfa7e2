//! A textbook's worked examples.

use analysis::wave::string;
use serde_json::Value;

use super::{load, number, rounds_to, rows};

/// The book's examples give a tension or a hanging mass; ours takes masses.
fn hanging_mass_and_g(example: &Value) -> (f64, f64) {
    match example.get("tension") {
        // A mass of that many kilograms under 1 m/s² pulls as hard.
        Some(tension) => (number(tension), 1.0),
        None => (number(&example["hanging_mass"]), number(&example["g"])),
    }
}

#[test]
fn speed_on_a_string_from_tension_and_mass_per_length() {
    let data = load(include_str!("data/textbook_waves.json"));
    for example in rows(&data["strings"]) {
        let (hanging_mass, g) = hanging_mass_and_g(example);
        let two_metres = 2.0 * number(&example["mass_per_length"]);
        let speed = string::speed(hanging_mass, two_metres, 2.0, g);
        assert!(rounds_to(speed, &example["speed"]), "{example}: {speed}");
    }
}

/// v = f λ, which is also the gradient of a line through the origin and a
/// single point.
#[test]
fn speed_from_frequency_and_wavelength() {
    let data = load(include_str!("data/textbook_waves.json"));
    for example in rows(&data["travelling"]) {
        let (f, wavelength) = (
            number(&example["frequency"]),
            number(&example["wavelength"]),
        );
        let line = analysis::stats::line::through_origin(&[(1.0 / wavelength, f)]).unwrap();
        assert!(rounds_to(line.slope.value, &example["speed"]), "{example}");
    }
}
