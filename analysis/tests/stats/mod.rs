//! What holds for any figures: statistics that stay, turn or scale with them,
//! and rates that intervals promise.

mod agreement;
mod coverage;
mod numbers;
mod precision;
mod robust;

/// Equal but for rounding, which a few dozen operations on figures of a few
/// tens leave below this.
fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1.0)
}

fn both_near(a: Option<f64>, b: Option<f64>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => near(a, b),
        (a, b) => a.is_none() && b.is_none(),
    }
}
