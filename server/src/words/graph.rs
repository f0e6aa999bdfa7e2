//! Numbers in words, for labels and for those who hear the graph.

use super::{capitalised, list, plural};

/// A value to three figures: `0.257`, `25.7`, `1234`, `1.23 × 10⁹`. The
/// whole part is never cut short.
#[must_use]
pub fn three_figures(value: f64) -> String {
    if !value.is_normal() {
        return format!("{value}");
    }
    let power = power_of_ten(value.abs());
    if (-4..6).contains(&power) {
        let decimals = usize::try_from(2 - power).unwrap_or(0);
        format!("{value:.decimals$}")
    } else {
        let mantissa = value / 10_f64.powi(power);
        format!("{mantissa:.2} × {}", ten_to_the(power))
    }
}

/// The same without noughts at the end: `40`, where nothing hangs on how
/// finely it was read.
#[must_use]
pub fn shortest(value: f64) -> String {
    let text = three_figures(value);
    if text.contains('.') && !text.contains('×') {
        let text = text.trim_end_matches('0');
        text.trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// The largest k with 10^k ≤ `value`, for one above nought.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the logarithm of a double is between -324 and 309, and a cast never leaves i32"
)]
#[must_use]
pub fn power_of_ten(value: f64) -> i32 {
    value.log10().floor() as i32
}

/// A unit with the power of ten that the labels of its axis leave out:
/// `Hz`, `10⁶ Hz`.
#[must_use]
pub fn unit(exponent: i32, unit: &str) -> String {
    if exponent == 0 {
        unit.to_owned()
    } else {
        format!("{} {unit}", ten_to_the(exponent))
    }
}

/// `10⁻³`.
fn ten_to_the(power: i32) -> String {
    let raised = |digit: char| match digit {
        '0' => '⁰',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        '4' => '⁴',
        '5' => '⁵',
        '6' => '⁶',
        '7' => '⁷',
        '8' => '⁸',
        '9' => '⁹',
        _ => '⁻',
    };
    let power: String = power.to_string().chars().map(raised).collect();
    format!("10{power}")
}

/// `Rows 2 and 5 do not belong with the others.`; nothing for no names.
#[must_use]
pub fn do_not_belong(one: &str, many: &str, names: &[&str], with: &str) -> Option<String> {
    let subject = capitalised(&list(one, many, names)?);
    let verb = plural(names.len(), "does", "do");
    Some(format!("{subject} {verb} not belong with {with}."))
}
