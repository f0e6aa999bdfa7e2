//! Numbers as the pages write them: the only place that rounds for the eye.

use analysis::figure::significant;
use analysis::interval::Interval;

/// Most decimals that any column shows.
const MOST_DECIMALS: usize = 6;

/// Decimals at which the largest of some values shows three figures: a column
/// written with them lines up on its point.
#[must_use]
pub fn decimals(values: impl IntoIterator<Item = f64>) -> usize {
    let largest = values
        .into_iter()
        .filter(|v| v.is_finite())
        .map(f64::abs)
        .fold(0.0, f64::max);
    if largest == 0.0 {
        return 2;
    }
    (0..MOST_DECIMALS)
        .find(|d| largest * 10_f64.powi(i32::try_from(*d).unwrap_or(0)) >= 99.5)
        .unwrap_or(MOST_DECIMALS)
}

/// A value with so many decimals; a dash where there is none.
#[must_use]
pub fn fixed(value: Option<f64>, decimals: usize) -> String {
    value
        .filter(|v| v.is_finite())
        .map_or_else(|| "–".to_owned(), |v| format!("{v:.decimals$}"))
}

/// An interval as `0.249 to 0.265`; blank where there is none.
#[must_use]
pub fn range(interval: Option<Interval>, decimals: usize) -> String {
    interval.map_or_else(String::new, |i| {
        format!("{:.decimals$} to {:.decimals$}", i.low, i.high)
    })
}

/// A share as a percentage to two figures: `2.1 %`.
#[must_use]
pub fn percent(share: f64) -> String {
    format!("{} %", significant(100.0 * share, 2))
}

/// How a ratio to what was expected reads: `18 % above`, `3 % below`.
#[must_use]
pub fn against(ratio: f64) -> String {
    let off = 100.0 * (ratio - 1.0);
    match off {
        off if off >= 0.5 => format!("{off:.0} % above"),
        off if off <= -0.5 => format!("{:.0} % below", -off),
        _ => "the same as".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_show_three_figures_of_their_largest() {
        assert_eq!(decimals([0.257, 0.31]), 3);
        assert_eq!(decimals([48.2, 9.1]), 1);
        assert_eq!(decimals([4400.0]), 0);
        assert_eq!(decimals([]), 2);
        assert_eq!(decimals([f64::NAN]), 2);
    }

    #[test]
    fn ratios_read_as_sentences() {
        assert_eq!(against(1.184), "18 % above");
        assert_eq!(against(0.97), "3 % below");
        assert_eq!(against(1.001), "the same as");
    }
}
