//! What is said of the versions of a sheet, and of what one says.

use analysis::assess::{RowResult, Standing};
use analysis::unit::Unit;
use analysis::working::{Comparison, Verdict};

use super::number::{against, fixed};
use super::{Say, capitalised};

sentences! {
    NOTHING: "Nothing stored";
    NOTHING_YET: "Nothing stored yet";
    ROW_LEFT_OUT: "The group left it out.";
    ROW_MENTIONED: "If one row is odd, it is this one.";
    ROW_ODD: "It does not belong with the others.";
    NOT_GIVEN: "not given";
    THE_SHEET: "the sheet";
}

/// Returns how a version came to be: when it was saved or handed in, and by
/// whom where it was taken in from a file.
#[must_use]
pub fn came(is_handed_in: bool, when: &str, from_file_by: Option<&str>) -> String {
    let what = if is_handed_in { "Handed in" } else { "Saved" };
    let from = from_file_by.map_or_else(String::new, |name| format!(", from a file by {name}"));
    format!("{what} {when}{from}")
}

/// Returns how far a sheet has come, to stand alone.
#[must_use]
pub fn progress(progress: Option<String>, nothing: &str) -> String {
    progress.map_or_else(|| nothing.to_owned(), |progress| capitalised(&progress))
}

/// Returns the speed that was expected, in m/s with so many decimals, and how
/// the sheet's compares.
#[must_use]
pub fn expected(expected: f64, ratio: f64, decimals: usize) -> String {
    format!(
        "{} m/s; the sheet is {} it",
        fixed(Some(expected), decimals),
        against(ratio)
    )
}

/// Returns what is to be said of a row; blank for nothing.
#[must_use]
pub fn row(rows: &[RowResult], row: &RowResult) -> String {
    let stands = match row.standing {
        Standing::Belongs => None,
        Standing::Mentioned => Some(ROW_MENTIONED.to_owned()),
        Standing::Anomalous => Some(ROW_ODD.to_owned()),
    };
    let first = row.repeats.and_then(|first| rows.get(first));
    let said = [
        row.left_out.then(|| ROW_LEFT_OUT.to_owned()),
        stands,
        first.map(|first| format!("Repeats the frequency of row {}.", first.label)),
    ];
    said.into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// Returns what a figure is called, with its row where it is of one.
#[must_use]
pub fn figure(comparison: &Comparison, row: Option<&str>) -> String {
    let label = Say::english().field(comparison.field);
    row.map_or_else(|| label.to_owned(), |row| format!("Row {row}: {label}"))
}

/// Returns whether a figure agrees. Returns no text when it was not judged.
#[must_use]
pub fn verdict(comparison: &Comparison) -> String {
    match (comparison.verdict, comparison.read_in.map(Unit::symbol)) {
        (Verdict::Right, Some(unit)) => format!("no unit; agrees if {unit} is meant"),
        (Verdict::Right, None) => "agrees".to_owned(),
        (Verdict::Wrong, _) => "does not agree".to_owned(),
        (Verdict::Unjudged, _) => String::new(),
    }
}
