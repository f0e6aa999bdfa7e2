//! The flags file: one line a flag.

use std::io::Write;

use analysis::assess::Assessment;
use analysis::slip::Slip;
use analysis::working::Flag;

use super::cell;
use super::readings::ClassReadings;

/// The columns, in their order.
pub const COLUMNS: [&str; 12] = [
    "class",
    "group",
    "method",
    "row",
    "step",
    "slip",
    "kind",
    "basis",
    "probability",
    "given",
    "expected",
    "rival",
];

/// Writes the flags of a class, whose sheets were assessed one by one, and
/// says how many there were.
///
/// # Errors
/// When the output cannot be written.
pub fn write<W: Write>(
    out: &mut csv::Writer<W>,
    class: &ClassReadings,
    assessed: &[Assessment],
) -> csv::Result<usize> {
    let mut written = 0;
    for (sheet, assessment) in class.sheets.iter().zip(assessed) {
        for flag in &assessment.flags {
            out.write_record([
                &*cell::typed(&class.class),
                &*cell::typed(&sheet.group),
                sheet.typed.method.code(),
                &*cell::typed(row_label(flag, assessment)),
                flag.step.name(),
                flag.slip.code(),
                flag.slip.kind().code(),
                // The group's own figures show it: no inference, no doubt.
                "shown",
                "1",
                &*cell::typed(&flag.given),
                &*cell::typed(&flag.expected),
                flag.rival.map_or("", Slip::code),
            ])?;
            written += 1;
        }
    }
    Ok(written)
}

/// The row's number as typed; blank where the flag holds for the sheet.
fn row_label<'a>(flag: &Flag, assessment: &'a Assessment) -> &'a str {
    flag.row
        .and_then(|row| assessment.rows.get(row))
        .map_or("", |row| &row.label)
}
