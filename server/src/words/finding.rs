//! What is said of a finding on its sheet, and of where people said something
//! about it.

use analysis::reading::Cause;
use analysis::slip::Kind;

use super::cause::short;
use super::number::{decimals, fixed};

/// Returns where and what it is: `row 3: two digits swapped`. `is_of_rows` is
/// for one that is about the rows, all of them where none is named.
#[must_use]
pub fn what(cause: Cause, row: Option<&str>, is_of_rows: bool) -> String {
    let short = short(cause);
    match row {
        Some(label) => format!("row {label}: {short}"),
        None if is_of_rows && cause.kind() == Kind::Slip => format!("every row: {short}"),
        None => short.to_owned(),
    }
}

/// Returns two explanations that cannot be told apart, in a line.
#[must_use]
pub fn either(what: &str, other: &str) -> String {
    format!("one of these two: {what}; or {other}")
}

/// Returns what mending the reading would do: the speed of the sheet then, in
/// m/s, and whether its rows would agree.
#[must_use]
pub fn mended(speed: f64, is_in_line: bool) -> String {
    let speed = fixed(Some(speed), decimals([speed]));
    let then = if is_in_line {
        "and its rows would agree with one another and with what is expected"
    } else {
        "but its rows would still not agree with one another and with what is expected"
    };
    format!("Mended, the sheet would give {speed} m/s, {then}.")
}

/// Where something was said, after who said it.
pub const ON_EARLIER: &str = " on an earlier version of the sheet";

/// Returns the same of another group's sheet.
#[must_use]
pub fn on_sheet_of(label: &str) -> String {
    format!(" on the sheet of group {label}, with the same kit")
}
