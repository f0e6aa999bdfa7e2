//! A textbook's worked examples, and published speeds in metal rods.

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

/// A thin rod is a string that stretching makes taut: in √(T/μ) its stiffness
/// E A stands for the tension and ρ A for the mass per length, whatever its
/// section A. Young's modulus E follows from two other measured speeds, those
/// of both waves in bulk, so the published speed in a rod is a third
/// measurement: they agree to under 0.6 % for all but two, lead and
/// electrolytic iron, whose samples differed.
#[test]
fn speed_in_a_thin_rod_is_that_of_a_string_as_stiff() {
    let data = load(include_str!("data/rods.json"));
    let section = 7.9e-5; // m²: a rod 1 cm thick; it must not matter
    let differ: Vec<(&str, f64)> = rows(&data["rods"])
        .iter()
        .map(|rod| {
            let [bulk, shear, in_rod, density] = [1, 2, 3, 4].map(|at| number(&rod[at]));
            let rigidity = density * shear.powi(2);
            let lame = density * bulk.powi(2) - 2.0 * rigidity;
            let young = rigidity * (3.0 * lame + 2.0 * rigidity) / (lame + rigidity);
            let speed = string::speed(young * section, density * section, 1.0, 1.0);
            let name = rod[0].as_str().expect("a material");
            (name, speed / in_rod - 1.0)
        })
        .filter(|(_, difference)| difference.abs() > 0.006)
        .collect();
    let names: Vec<_> = differ.iter().map(|(name, _)| *name).collect();
    assert_eq!(names, ["Iron, electrolytic", "Lead, rolled"], "{differ:?}");
    assert!(differ.iter().all(|(_, d)| d.abs() < 0.04), "{differ:?}");
}
