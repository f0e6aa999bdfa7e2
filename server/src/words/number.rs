//! Numbers as the pages write them: the only place that rounds for the eye.

use std::fmt::Display;

use analysis::figure::significant;
use analysis::interval::Interval;
use analysis::stats::spread::median;

/// Most decimals that any column shows.
const MOST_DECIMALS: usize = 6;

/// Decimals at which the middle one of some values shows three figures: a
/// column written with them lines up on its point, and one wild value does
/// not take the figures from the others.
#[must_use]
pub fn decimals(values: impl IntoIterator<Item = f64>) -> usize {
    let sizes: Vec<_> = values
        .into_iter()
        .filter(|v| v.is_finite())
        .map(f64::abs)
        .collect();
    decimals_for(median(&sizes).unwrap_or(0.0))
}

/// Decimals at which the smallest of some values shows three figures.
#[must_use]
pub fn decimals_of_smallest(values: impl IntoIterator<Item = f64>) -> usize {
    let sizes = values.into_iter().filter(|v| v.is_finite()).map(f64::abs);
    let smallest = sizes.filter(|v| *v > 0.0).fold(f64::INFINITY, f64::min);
    decimals_for(if smallest.is_finite() { smallest } else { 0.0 })
}

fn decimals_for(size: f64) -> usize {
    if size == 0.0 {
        return 2;
    }
    let shows_three = |d: &usize| size * 10_f64.powi(i32::try_from(*d).unwrap_or(0)) >= 99.5;
    (0..MOST_DECIMALS)
        .find(shows_three)
        .unwrap_or(MOST_DECIMALS)
}

/// Returns a value with so many decimals; a dash where there is none.
#[must_use]
pub fn fixed(value: Option<f64>, decimals: usize) -> String {
    value.filter(|v| v.is_finite()).map_or_else(
        || "–".to_owned(),
        |v| with_minus(&format!("{v:.decimals$}")),
    )
}

/// Marks; a dash where there are none.
#[must_use]
pub fn marks(marks: Option<i64>) -> String {
    marks.map_or_else(|| "–".to_owned(), |marks| marks.to_string())
}

/// Says by how many whole marks two are apart, with the sign. Returns no text
/// when one of the two is missing.
#[must_use]
pub fn apart(difference: Option<i64>) -> String {
    difference.map_or_else(String::new, |marks| signed(marks as f64, 0))
}

/// Returns a value with so many decimals and its sign: `+1.5`, `−0.8`, `0.0`.
#[must_use]
pub fn signed(value: f64, decimals: usize) -> String {
    let size = format!("{:.decimals$}", value.abs());
    let is_nought = !size.contains(|digit: char| ('1'..='9').contains(&digit));
    match value > 0.0 {
        _ if is_nought => size,
        true => format!("+{size}"),
        false => format!("−{size}"),
    }
}

/// Returns what lies between two ends: `5 to 8`.
#[must_use]
pub fn to(low: impl Display, high: impl Display) -> String {
    format!("{low} to {high}")
}

/// Returns an interval as `0.249 to 0.265`. Returns no text when there is
/// none. A speed whose interval reaches down to nought says only that the rows
/// scatter.
#[must_use]
pub fn range(interval: Option<Interval>, decimals: usize) -> String {
    interval.map_or_else(String::new, |i| {
        if i.low <= 0.0 {
            "too scattered to say".to_owned()
        } else {
            let end = |end: f64| format!("{end:.decimals$}");
            to(end(i.low), end(i.high))
        }
    })
}

/// Returns an interval of speeds with its unit: `0.249 to 0.265 m/s`.
#[must_use]
pub fn speed_range(interval: Option<Interval>, decimals: usize) -> String {
    let text = range(interval, decimals);
    if text.contains(char::is_numeric) {
        format!("{text} m/s")
    } else {
        text
    }
}

/// Returns a number as printed, with a minus sign for the hyphen.
fn with_minus(number: &str) -> String {
    number.replace('-', "−")
}

/// Returns a share as a percentage to two figures: `2.1 %`.
#[must_use]
pub fn percent(share: f64) -> String {
    format!("{} %", significant(100.0 * share, 2))
}

/// Returns a probability in whole per cent; never as if it were certain: `92
/// %`, `over 99 %`, `under 1 %`.
#[must_use]
pub fn probability(share: f64) -> String {
    match 100.0 * share {
        sure if sure >= 99.5 => "over 99 %".to_owned(),
        slight if slight < 0.5 => "under 1 %".to_owned(),
        per_cent => format!("{per_cent:.0} %"),
    }
}

/// Says how a ratio to what was expected reads: `18 % above`, `3 % below`.
#[must_use]
pub fn against(ratio: f64) -> String {
    let off = 100.0 * (ratio - 1.0);
    match off {
        off if off >= 0.5 => format!("{off:.0} % above"),
        off if off <= -0.5 => format!("{:.0} % below", -off),
        _ => "no different from".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_show_three_figures_of_their_middle_value() {
        assert_eq!(decimals([0.257, 0.31, 24.6]), 3);
        assert_eq!(decimals([48.2, 19.1]), 1);
        assert_eq!(decimals_of_smallest([0.345, 1.72]), 3);
        assert_eq!(fixed(Some(-5.91), 1), "−5.9");
        assert_eq!(decimals([4400.0]), 0);
        assert_eq!(decimals([]), 2);
        assert_eq!(decimals([f64::NAN]), 2);
    }

    #[test]
    fn differences_have_a_sign_unless_they_are_nought() {
        assert_eq!(signed(1.25, 1), "+1.2");
        assert_eq!(signed(-0.75, 2), "−0.75");
        assert_eq!(signed(-0.04, 1), "0.0");
        assert_eq!(signed(0.0, 2), "0.00");
    }

    #[test]
    fn probabilities_are_never_certain() {
        assert_eq!(probability(0.917), "92 %");
        assert_eq!(probability(0.996), "over 99 %");
        assert_eq!(probability(1.0), "over 99 %");
        assert_eq!(probability(0.994), "99 %");
        assert_eq!(probability(0.002), "under 1 %");
    }

    #[test]
    fn ratios_read_as_sentences() {
        assert_eq!(against(1.184), "18 % above");
        assert_eq!(against(0.97), "3 % below");
        assert_eq!(against(1.001), "no different from");
    }
}
