//! The sheets of a year: one line a sheet.

use analysis::year::Made;

use super::{number, table, typed};
use crate::report::year::words::slip;
use crate::report::year::{Frame, Sheets};

/// The sheets file: those in these places of the year.
///
/// # Errors
/// When the table cannot be written.
pub fn sheets(frame: &Frame, sheets: &Sheets, wanted: &[usize]) -> csv::Result<Vec<u8>> {
    let columns = [
        "date",
        "class",
        "group",
        "method",
        "kit",
        "speed",
        "expected_speed",
        "ratio",
        "speed_uncertainty",
        "slips_in_working",
        "confirmed",
        "slip_in_readings",
        "mark",
    ];
    let year = &sheets.year;
    let lines = wanted.iter().map(|at| {
        let sheet = &year.sheets[*at];
        let lesson = &frame.lessons[sheet.lesson];
        let judgement = &sheet.judgement;
        [
            lesson.held_on.clone(),
            typed(&lesson.class_name),
            typed(&sheets.labels[*at]),
            lesson.method.clone(),
            typed(&sheets.kits_as_written[*at]),
            number(judgement.speed),
            number(judgement.expected),
            number(judgement.log_ratio().map(f64::exp)),
            number(judgement.uncertainty),
            codes(&sheet.made, |made| matches!(made, Made::Shown(_))),
            codes(&sheet.made, |made| matches!(made, Made::Confirmed(_))),
            if sheet.is_slipped { "yes" } else { "" }.to_owned(),
            number(sheet.mark),
        ]
    });
    table(columns, lines)
}

fn codes(made: &[Made], is_wanted: impl Fn(&Made) -> bool) -> String {
    let wanted = made.iter().filter(|made| is_wanted(made));
    let codes: Vec<&str> = wanted.map(|made| slip::code(*made)).collect();
    codes.join(" ")
}
