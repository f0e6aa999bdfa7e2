//! What holds for any figures: statistics that stay, turn or scale with them,
//! and rates that intervals promise.

mod agreement;
mod coverage;
mod numbers;
mod precision;
mod robust;

use analysis::interval::Interval;

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

fn intervals_near(a: Option<Interval>, b: Option<Interval>) -> bool {
    both_near(a.map(|i| i.low), b.map(|i| i.low)) && both_near(a.map(|i| i.high), b.map(|i| i.high))
}
