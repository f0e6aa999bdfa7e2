//! The sheets of a year: one line a sheet.

use analysis::year::Made;

use crate::report::year::{Frame, Sheets};
use crate::table::Table;

/// Makes the table of the sheets in these places of the year.
#[must_use]
pub fn sheets(frame: &Frame, sheets: &Sheets, wanted: &[usize]) -> Table {
    let sheet = |at: usize| &sheets.year.sheets[at];
    let lesson = |at: usize| &frame.lessons[sheet(at).lesson];
    let judgement = |at: usize| &sheet(at).judgement;
    Table::of(wanted)
        .text("date", |at| &lesson(*at).held_on)
        .text("class", |at| &lesson(*at).class_name)
        .text("group", |at| &sheets.labels[*at])
        .text("method", |at| &lesson(*at).method)
        .text("kit", |at| &sheets.kits_as_written[*at])
        .number("speed", |at| judgement(*at).speed)
        .number("expected_speed", |at| judgement(*at).expected)
        .number("ratio", |at| judgement(*at).log_ratio().map(f64::exp))
        .number("speed_uncertainty", |at| judgement(*at).uncertainty)
        .text("slips_in_working", |at| {
            codes(&sheet(*at).made, |made| matches!(made, Made::Shown(_)))
        })
        .text("confirmed", |at| {
            codes(&sheet(*at).made, |made| matches!(made, Made::Confirmed(_)))
        })
        .text("slip_in_readings", |at| match sheet(*at).is_slipped {
            true => "yes",
            false => "",
        })
        .number("mark", |at| sheet(*at).mark)
        .table()
}

fn codes(made: &[Made], is_wanted: impl Fn(&Made) -> bool) -> String {
    let wanted = made.iter().filter(|made| is_wanted(made));
    let codes: Vec<&str> = wanted.map(|made| made.code()).collect();
    codes.join(" ")
}
