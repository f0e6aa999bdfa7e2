//! A school year's figures for a spreadsheet: one table a file.
//!
//! Numbers are written to six significant figures, ratios as ratios and
//! shares as shares (0 to 1); what is not known is blank.

mod cells;
mod kits;
mod sheets;
mod slips;

use analysis::year::Estimated;
use analysis::year::share::Share;

pub use cells::cells;
pub use kits::{kit_lessons, kits};
pub use sheets::sheets;
pub use slips::slips;

use super::cell;

/// Columns of these tables that hold numbers.
pub(super) const NUMBERS: [&str; 41] = [
    "lessons",
    "sheets",
    "slips_taken_out",
    "dial_left_aside",
    "median_ratio",
    "median_low",
    "median_high",
    "ratio",
    "ratio_low",
    "ratio_high",
    "off",
    "off_low",
    "off_high",
    "standard_errors",
    "lessons_same_side",
    "off_year_before",
    "off_low_year_before",
    "off_high_year_before",
    "compared_with",
    "groups",
    "of",
    "share",
    "share_low",
    "share_high",
    "handed_in",
    "complete",
    "counted",
    "left_aside",
    "speed_median",
    "against_others",
    "against_others_low",
    "against_others_high",
    "sd",
    "marked",
    "mark",
    "mark_mean",
    "mark_mean_low",
    "mark_mean_high",
    "speed_uncertainty",
    "repeatability",
    "reproducibility",
];

/// Writes a table; an error where a line has not as many cells as there are
/// columns.
fn table<const N: usize>(
    columns: [&str; N],
    lines: impl IntoIterator<Item: IntoIterator<Item = String>>,
) -> csv::Result<Vec<u8>> {
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record(columns)?;
    for line in lines {
        out.write_record(line)?;
    }
    out.into_inner().map_err(|error| error.into_error().into())
}

/// Text that somebody typed.
fn typed(text: &str) -> String {
    cell::typed(text).into_owned()
}

fn number(value: Option<f64>) -> String {
    cell::number(value)
}

/// A figure with the ends of its interval.
fn estimated(figure: Option<Estimated>) -> [String; 3] {
    [
        number(figure.map(|f| f.value)),
        number(figure.map(|f| f.low)),
        number(figure.map(|f| f.high)),
    ]
}

/// So many, of so many, and the share with its interval.
fn share(share: Share) -> [String; 5] {
    let interval = share.interval();
    [
        share.made.to_string(),
        share.of.to_string(),
        number(share.value()),
        number(interval.map(|i| i.low)),
        number(interval.map(|i| i.high)),
    ]
}
