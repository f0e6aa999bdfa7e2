//! What is said of files: what is wrong in one, what was understood of it, and
//! what was taken in.

use analysis::field::Field;
use analysis::method::Method;
use analysis::sheet::BoxFault;

use super::Say;

sentences! {
    NO_LINES: "The file has no lines below its column names.";
    NO_SUCH_FILE: "There is no such file. Open the page of files and choose one.";
    CHOOSE_FILE: "Choose a file first.";
    LONG_FILE: "This file is longer than 2 MB, more than a class writes. Choose another.";
    NO_READINGS_SENT: "The readings did not come with this form. Nothing was kept: choose the file again.";
    NO_GROUP_TICKED: "No group is ticked, so nothing was kept.";
    BAD_LABEL: "a bench’s label has at most 8 letters and figures, without spaces or signs. Write another in the file.";
    TOO_MANY_GROUPS: "a class set has at most 40 groups.";
    WORKBOOK_HOLDS: "For a spreadsheet: a sheet for each of the files below.";
    READINGS_HOLD: "A line for each row of a group’s table, to the letter as it was typed. This file can be taken in again.";
    GROUPS_HOLD: "A line for each group: its speed as recomputed, what was expected, and how it stands in the class.";
    FLAGS_HOLD: "A line for each thing to say of a sheet, before anybody confirmed or dismissed it. Not for pupils: it has what is only inferred, and questions.";
    MARKS_HOLD: "A line for each group and marking point: what is awarded, by whom and why, and what is suggested; and each group’s total.";
    REGISTER_HOLDS: "A line for each group and each absentee.";
}

/// Returns of which groups a file was taken in: the version that their readings
/// became, or none of a bench that it added.
#[must_use]
pub fn taken_in(groups: &[(String, Option<i64>)]) -> String {
    let said = groups.iter().map(|(label, version)| match version {
        Some(version) => format!("{label} (version {version})"),
        None => format!("{label} (new bench)"),
    });
    said.collect::<Vec<_>>().join(", ")
}

sentences! {
    NO_COLUMN: "there is no column of this name in a readings file.";
    COLUMN_TWICE: "this column is there twice.";
    COLUMN_MISSING: "this column must be there, and is not.";
    EMPTY: "the file is empty: it has no header line.";
    CARRIAGE_RETURNS: "the lines end in bare carriage returns. Save the file as CSV UTF-8.";
    NO_END: "this line does not end. Is a quotation mark left open?";
    NOT_UTF8: "this is not UTF-8 text. Save the file as CSV UTF-8.";
    BLANK_CELL: "this cell is blank. Each line needs one.";
    NO_SHEET: "this sheet cannot be read.";
    SEMICOLONS: "The fields are separated by semicolons.";
    SAME_PLACE: "flags and groups cannot go to the same place.";
    OVER_READINGS: "the results would be written over the readings.";
}

/// Returns text from a file, short enough for a message of one line.
#[must_use]
pub fn shortened(text: &str) -> String {
    const LONGEST: usize = 40;
    let text = text.trim();
    let plain = text.chars().map(|c| if c.is_control() { ' ' } else { c });
    let mut short: String = plain.take(LONGEST).collect();
    if text.chars().count() > LONGEST {
        short.push('…');
    }
    short
}

/// Returns the same in quotation marks.
fn quoted(text: &str) -> String {
    format!("“{}”", shortened(text))
}

/// Returns that a line has another number of fields than the header line.
#[must_use]
pub fn fields(found: usize, of_header: usize) -> String {
    format!(
        "there are {found} fields here where the header line has {of_header}. A comma inside a figure must stand in quotation marks."
    )
}

/// Returns that a cell is too long.
#[must_use]
pub fn long_cell(longest: usize) -> String {
    format!("there are more than {longest} characters here. Is a quotation mark left open?")
}

/// Returns that something stands in a column which has no cells.
#[must_use]
pub fn cannot_stand(text: &str) -> String {
    format!("{} cannot stand here.", quoted(text))
}

/// Returns that a code is no method that can be read, though it may be one.
#[must_use]
pub fn method(code: &str, is_one: bool) -> String {
    let built = Method::ALL.map(Method::code).join(" or ");
    let wrong = match code {
        "" => "this cell is blank".to_owned(),
        code if is_one => format!("{} cannot be read yet", quoted(code)),
        code => format!("{} is not a method", quoted(code)),
    };
    format!("{wrong}. Use {built}.")
}

/// Returns that a cell says neither yes nor no.
#[must_use]
pub fn yes_or_no(text: &str) -> String {
    format!("{} should be yes, no or blank.", quoted(text))
}

/// Returns that a unit is none of a figure's.
#[must_use]
pub fn unit(field: Field, text: &str) -> String {
    let units = field.quantity().units();
    let symbols: Vec<_> = units.iter().map(|unit| unit.symbol()).collect();
    format!(
        "{} is not a unit for this column. Use {}.",
        quoted(text),
        symbols.join(", ")
    )
}

/// Returns that a class comes once more.
#[must_use]
pub fn class_ended(class: &str) -> String {
    format!(
        "class {} has ended further up. The lines of one class must stand together.",
        quoted(class)
    )
}

/// Returns that a row comes once more, and in which line it was first.
#[must_use]
pub fn row_twice(row: &str, first: u64) -> String {
    format!(
        "row {} of this sheet is in line {first} already.",
        quoted(row)
    )
}

/// Returns that a sheet has two values of what it has once.
#[must_use]
pub fn two_values(text: &str, kept: &str, line: u64) -> String {
    format!(
        "{} here, but {} in line {line}: a sheet has one value of it.",
        quoted(text),
        quoted(kept)
    )
}

/// Returns what is wrong with a box.
#[must_use]
pub fn wrong_box(text: &str, field: Field, fault: &BoxFault) -> String {
    format!("{}: {}", quoted(text), Say::english().fault(field, fault))
}

/// Returns that a row's number is too long for a bench sheet.
#[must_use]
pub fn long_row_label(longest: usize) -> String {
    format!("a row’s number has at most {longest} characters.")
}

/// Returns that there are more rows than on a bench sheet.
#[must_use]
pub fn too_many_rows(most: usize) -> String {
    format!("a bench sheet has at most {most} rows.")
}

/// Something that is assumed while a file is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assumed {
    /// Of a comma in a figure.
    DecimalComma,
    /// Of a blank first number.
    FirstNumber,
    /// Of water without a depth.
    Depth,
    /// Of a class of very many sheets.
    Parts,
}

/// Returns what was assumed, how often, and in which line and column first.
#[must_use]
pub fn assumed(what: Assumed, count: u64, first: Option<&(u64, String)>) -> String {
    let what = match what {
        Assumed::DecimalComma => "A comma in a figure is its decimal point",
        Assumed::FirstNumber => "A blank first number called is nought",
        Assumed::Depth => "Water without a recorded depth is as deep as in most tanks",
        Assumed::Parts => {
            "So many sheets are several classes: their readings are compared part by part"
        }
    };
    let first = first.map_or_else(String::new, |(line, column)| {
        format!(", first in line {line}, column {column}")
    });
    format!("{what} ({count}{first}).")
}
