//! Ripples: the least speed on deep water, and a table by another program.

use analysis::wave::G_STANDARD;
use analysis::wave::water::Water;

use super::{digits, load, number, rounds_to, rows};

#[test]
fn gravity_is_standard() {
    let data = load(include_str!("data/gravity.json"));
    let published = number(&data["metre_per_second_squared"]);
    assert!(
        (G_STANDARD - published).abs() < 1e-15,
        "exact by definition"
    );
}

#[test]
fn frequencies_and_speeds_of_the_table() {
    let data = load(include_str!("data/ripples.json"));
    for row in rows(&data["table"]) {
        let water = Water {
            surface_tension: number(&data["clean_water_20_c"]["surface_tension"]),
            density: number(&data["clean_water_20_c"]["density"]),
            depth: number(&row["depth"]),
        };
        let frequency = number(&row["frequency"]);
        // 16 figures each way. Finding the wavelength from the frequency
        // loses half a digit, and nothing else here loses any.
        let wavelength = water.wavelength(frequency);
        assert!(
            digits(wavelength, number(&row["wavelength"])) > 14.0,
            "{row}: {wavelength}"
        );
        let speed = water.speed(frequency);
        assert!(
            digits(speed, number(&row["speed"])) > 14.0,
            "{row}: {speed}"
        );
    }
}

#[test]
fn clean_water_at_20_degrees_is_the_table_s_water() {
    let data = load(include_str!("data/ripples.json"));
    let there = &data["clean_water_20_c"];
    let water = Water::clean(20.0, 10.0);
    for (found, name) in [
        (water.surface_tension, "surface_tension"),
        (water.density, "density"),
        (water.least_deep_speed(), "least_speed"),
        (water.wavelength_of_least_deep_speed(), "at_wavelength"),
    ] {
        assert!(
            digits(found, number(&there[name])) > 14.0,
            "{name}: {found}"
        );
    }
}

/// 23.1 cm/s at 1.73 cm, for water of no stated temperature.
#[test]
fn least_speed_on_deep_water_as_published() {
    let data = load(include_str!("data/ripples.json"));
    let water = Water::clean(20.0, 10.0);
    let least = 100.0 * water.least_deep_speed();
    assert!(
        rounds_to(least, &data["published"]["least_speed_cm_per_s"]),
        "{least}"
    );
    let wavelength_cm =
        |celsius: f64| 100.0 * Water::clean(celsius, 10.0).wavelength_of_least_deep_speed();
    let published = number(&data["published"]["at_wavelength_cm"]);
    // Between that of warm water and that of cold.
    assert!((wavelength_cm(30.0)..wavelength_cm(0.0)).contains(&published));
}

/// The formula for the least speed against the solver: no frequency near the
/// least gives a slower ripple.
#[test]
fn no_deep_ripple_is_slower_than_the_least() {
    let water = Water::clean(20.0, 1.0);
    let least = water.least_deep_speed();
    let slowest = (10..400)
        .map(|tenths| water.speed(f64::from(tenths) / 10.0))
        .fold(f64::INFINITY, f64::min);
    assert!(slowest >= least * (1.0 - 1e-14), "{slowest} {least}");
    // Steps of 0.1 Hz near 13.5 Hz: the bottom is flat, and missed by 4e-6.
    assert!(slowest < least * 1.000_01, "{slowest} {least}");
}
