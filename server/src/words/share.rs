//! Numbers of a year as its pages write them.

use analysis::interval::Interval;
use analysis::year::Estimated;
use analysis::year::share::Share;

use super::number::{decimals_of_smallest, fixed, to};

/// Returns a count with its total: `5 of 27`. Returns a dash when the total is
/// 0.
#[must_use]
pub fn of(share: Share) -> String {
    if share.of == 0 {
        "–".to_owned()
    } else {
        format!("{} of {}", share.made, share.of)
    }
}

/// Returns a share in whole per cent: `19 %`. Returns a dash for a share of 0
/// things.
#[must_use]
pub fn per_cent(share: Share) -> String {
    share
        .value()
        .map_or_else(|| "–".to_owned(), |value| format!("{:.0} %", 100.0 * value))
}

/// Returns its interval in whole per cent: `11 to 31 %`. Returns no text for a
/// share of 0 things.
#[must_use]
pub fn per_cent_range(share: Share) -> String {
    share.interval().map_or_else(String::new, |interval| {
        per_cents(100.0 * interval.low, 100.0 * interval.high)
    })
}

/// Returns what lies between two ends in whole per cent: `11 to 31 %`.
#[must_use]
pub fn per_cents(low: f64, high: f64) -> String {
    format!("{} %", to(format!("{low:.0}"), format!("{high:.0}")))
}

/// Returns a ratio as it stands in a column: `1.063`; a dash where there is
/// none.
#[must_use]
pub fn ratio(value: Option<f64>) -> String {
    fixed(value, 3)
}

/// Returns the interval of a ratio: `1.051 to 1.075`. Returns no text when
/// there is none.
#[must_use]
pub fn ratio_range(ends: Option<impl Into<Interval>>) -> String {
    let ends = ends.map(Into::into);
    ends.map_or_else(String::new, |Interval { low, high }| {
        to(fixed(Some(low), 3), fixed(Some(high), 3))
    })
}

/// Returns how far off in per cent: `6 % high`, `0.4 % low`; a dash where
/// nothing is known.
#[must_use]
pub fn off(value: Option<f64>) -> String {
    let Some(value) = value else {
        return "–".to_owned();
    };
    let per_cent = 100.0 * value.abs();
    let decimals = usize::from(per_cent < 1.95);
    let side = if value < 0.0 { "low" } else { "high" };
    match format!("{per_cent:.decimals$}") {
        nothing if nothing == "0.0" => "neither high nor low".to_owned(),
        size => format!("{size} % {side}"),
    }
}

/// Returns its interval: `5 to 8 % high`, `1.2 % low to 0.8 % high`. Returns
/// no text when there is none.
#[must_use]
pub fn off_range(figure: Option<Estimated>) -> String {
    let Some(Estimated { low, high, .. }) = figure else {
        return String::new();
    };
    let [near, far] = if low < 0.0 && high < 0.0 {
        [-high, -low]
    } else {
        [low, high]
    };
    let decimals = usize::from([near, far].iter().any(|x| 100.0 * x.abs() < 1.95));
    let size = |value: f64| format!("{:.decimals$}", 100.0 * value.abs());
    match (low < 0.0, high < 0.0) {
        (true, false) => to(
            format!("{} % low", size(low)),
            format!("{} % high", size(high)),
        ),
        (true, true) => format!("{} % low", to(size(near), size(far))),
        _ => format!("{} % high", to(size(near), size(far))),
    }
}

/// Returns a difference in percentage points: `−30 (−42 to −17)`; a dash where
/// there is none.
#[must_use]
pub fn points(difference: Option<Estimated>) -> String {
    let Some(figure) = difference else {
        return "–".to_owned();
    };
    let [value, low, high] = [figure.value, figure.low, figure.high].map(|x| {
        let whole = fixed(Some(100.0 * x), 0);
        if whole == "−0" {
            "0".to_owned()
        } else {
            whole
        }
    });
    format!("{value} ({})", to(low, high))
}

/// Writes speeds with as many decimals as the smallest needs.
#[must_use]
pub fn speeds(values: &[Option<f64>]) -> Vec<String> {
    let decimals = decimals_of_smallest(values.iter().flatten().copied());
    values.iter().map(|value| fixed(*value, decimals)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn between(low: f64, high: f64) -> Option<Estimated> {
        Some(Estimated {
            value: f64::midpoint(low, high),
            low,
            high,
        })
    }

    #[test]
    fn how_far_off_reads_as_a_side() {
        assert_eq!(off(Some(0.063)), "6 % high");
        assert_eq!(off(Some(-0.004)), "0.4 % low");
        assert_eq!(off(Some(0.0001)), "neither high nor low");
        assert_eq!(off_range(between(0.048, 0.078)), "5 to 8 % high");
        assert_eq!(off_range(between(-0.012, 0.008)), "1.2 % low to 0.8 % high");
        assert_eq!(off_range(between(-0.13, -0.09)), "9 to 13 % low");
        assert_eq!(off_range(None), "");
    }

    #[test]
    fn shares_of_none_are_a_dash() {
        assert_eq!(of(Share::default()), "–");
        assert_eq!(per_cent(Share { made: 5, of: 27 }), "19 %");
        assert_eq!(points(between(-0.004, 0.002)), "0 (0 to 0)");
        assert_eq!(points(between(-0.42, -0.18)), "−30 (−42 to −18)");
    }
}
