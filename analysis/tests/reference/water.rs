//! Water's surface tension and density.

use analysis::wave::water::{density_of_clean_water, surface_tension_of_clean_water};

use super::{digits, load, number, rounds_to, rows};

/// The release prints nine figures to check programs by; all nine are asked.
#[test]
fn surface_tension_at_the_check_values_of_the_release() {
    let data = load(include_str!("data/surface_tension.json"));
    for row in rows(&data["check_values"]) {
        let found = surface_tension_of_clean_water(number(&row["kelvin"]) - 273.15);
        assert!(rounds_to(found, &row["newton_per_metre"]), "{row}: {found}");
    }
}

#[test]
fn density_by_formula_and_by_the_equation_of_state() {
    let data = load(include_str!("data/density.json"));
    for row in rows(&data["table"]) {
        let found = density_of_clean_water(number(&row["celsius"]));
        // The same formula in another program: rounding alone.
        assert!(
            digits(found, number(&row["tanaka"])) > 14.0,
            "{row}: {found}"
        );
        // Another formula altogether. Its authors claim a part in a million
        // for ordinary water (0.001 kg/m³), and the two differ by 0.0012 at
        // 40 °C, the end of Tanaka's range.
        assert!(
            (found - number(&row["iapws95"])).abs() < 0.0015,
            "{row}: {found}"
        );
    }
}
