//! What is said of graphs: numbers in labels, what their marks mean, and what
//! those hear who do not see them.

use super::{capitalised, counted, list, plural};

/// Returns a value to three figures: `0.257`, `25.7`, `1234`, `1.23 × 10⁹`.
/// The whole part is never cut short.
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

/// Returns the same without noughts at the end: `40`, where nothing hangs on
/// how finely it was read.
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

/// Returns a unit with the power of ten that the labels of its axis leave out:
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

/// Returns that some do not belong with the others: `Rows 2 and 5 do not belong
/// with the others.` Returns `None` for no names.
#[must_use]
pub fn do_not_belong(one: &str, many: &str, names: &[&str], with: &str) -> Option<String> {
    let subject = capitalised(&list(one, many, names)?);
    let verb = plural(names.len(), "does", "do");
    Some(format!("{subject} {verb} not belong with {with}."))
}

/// Returns which rows a group left out. Returns `None` for no names.
#[must_use]
pub fn left_out(rows: &[&str]) -> Option<String> {
    let rows = list("row", "rows", rows)?;
    Some(format!("The group left out {rows}."))
}

/// Returns the gradient of a line, in m/s, to stand beside it.
#[must_use]
pub fn gradient(slope: f64) -> String {
    format!("gradient {} m/s", three_figures(slope))
}

/// Returns what a graph of f against 1/λ shows: of what, from which frequency
/// to which in Hz, and the slope of its line in m/s.
#[must_use]
pub fn rows(of: &str, (least, most): (f64, f64), slope: Option<f64>) -> String {
    let (least, most) = (shortest(least), shortest(most));
    let range = if least == most {
        format!("at {most} Hz")
    } else {
        format!("from {least} Hz to {most} Hz")
    };
    let line = slope.map_or_else(String::new, |slope| {
        format!("; the line through the origin has {}", gradient(slope))
    });
    format!("f against 1/λ for {of} {range}{line}.")
}

/// Said after it where a curve stands for what was expected.
pub const EXPECTED: &str = "A dashed line shows what was expected.";
/// In the place of the graph of one sheet.
pub const NO_ROW: &str = "No row has both f and 1/λ, so there is no graph yet.";
/// In the place of a class's graph.
pub const NO_GROUP: &str = "No group has a row with both f and 1/λ, so there is no graph yet.";

/// Remark on a row that does not belong with the others.
pub const RINGED: &str = "does not belong with the others";
/// Remark on a row of such a group.
pub const APART: &str = "group does not belong with the class";

/// What marks of rows mean.
pub const RING: &str = "A ring marks a row that does not belong with the others.";
/// See [`RING`].
pub const HEAVY_GROUP: &str =
    "Heavy crosses with a name are a group that does not belong with the class.";
/// See [`RING`].
pub const OPEN_ROW: &str = "An open circle is a row that the group left out.";
/// See [`RING`].
pub const ARROW_ROW: &str = "An arrow stands for a row beyond the edge of the graph.";
/// See [`RING`].
pub const BARS: &str = "Bars show how finely λ could be read, one standard uncertainty each way; where there is none, it would be hidden by the mark.";

/// What marks of a kit's sheets mean.
pub const CROSS: &str = "Each cross is a sheet.";
/// See [`CROSS`].
pub const OPEN_SHEET: &str = "An open circle is one that was left aside.";
/// See [`CROSS`].
pub const ARROW_SHEET: &str = "An arrow stands for a sheet beyond the edge of the graph.";
/// See [`CROSS`].
pub const DASHED: &str = "Dashed lines: what it is compared with, and two and three standard deviations of single sheets from it.";
/// See [`CROSS`].
pub const OWN_MEDIAN: &str = "The full line is the kit’s own median.";

/// What marks of sheets marked twice mean.
pub const HEAVY_SHEET: &str = "Heavy crosses are sheets outside the tolerance.";
/// See [`HEAVY_SHEET`].
pub const MANY_SHEETS: &str = "A number beside a cross says how many sheets fall on it.";

/// Returns what a graph of two markings shows: how many sheets there are, and on
/// how many the second mark is higher, lower, and outside the tolerance.
#[must_use]
pub fn differences(sheets: usize, above: usize, below: usize, outside: usize) -> String {
    format!(
        "Second less first total against the mean of both, for {}: the second is higher on {above}, lower on {below} and the same on {}. {} outside the tolerance.",
        counted(sheets, "sheet", "sheets"),
        sheets - above - below,
        counted(outside, "sheet lies", "sheets lie"),
    )
}
