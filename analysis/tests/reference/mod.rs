//! Published figures. `README.md` says where each data file comes from, how
//! far it was checked, and what was left out.

mod agreement;
mod icc;
mod kappa;
mod lines;
mod outliers;
mod precision;
mod proportions;
mod quantiles;
mod ripples;
mod robust;
mod spread;
mod strings;
mod water;

use serde_json::Value;

/// A data file, read.
fn load(text: &str) -> Value {
    serde_json::from_str(text).expect("a data file is JSON")
}

/// A figure of a data file, whether written as a number or, to keep its
/// digits as printed, as text.
fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .or_else(|| value.as_str()?.parse().ok())
        .expect("a figure")
}

/// The figures of a list.
fn numbers(value: &Value) -> Vec<f64> {
    rows(value).iter().map(number).collect()
}

fn rows(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

/// A whole number of a data file.
fn count(value: &Value) -> usize {
    usize::try_from(value.as_u64().expect("a count")).expect("a small count")
}

/// How many significant digits two figures share: minus the logarithm of
/// their relative difference, 16 at most.
fn digits(found: f64, published: f64) -> f64 {
    let difference = ((found - published) / published).abs();
    -difference.max(1e-16).log10()
}

/// Half a unit in the last place of a decimal as printed.
fn half_unit(printed: &str) -> f64 {
    let places = printed.split_once('.').map_or(0, |(_, p)| p.len());
    0.5 * 0.1_f64.powi(i32::try_from(places).expect("few places"))
}

/// Whether a figure rounds to one as printed. A thousandth of a unit is given
/// for printed figures that were themselves rounded from binary.
fn rounds_to(found: f64, printed: &Value) -> bool {
    let text = printed.as_str().expect("a figure as printed");
    (found - number(printed)).abs() <= 1.002 * half_unit(text)
}
