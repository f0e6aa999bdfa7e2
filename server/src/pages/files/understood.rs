//! What was understood of each line of a sheet, in words.

use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::Answer;
use analysis::sheet::{Entry, Sheet};
use analysis::unit::Unit;

use crate::files::{Column, SheetReadings};
use crate::words::{check, label};

/// Of an answer, so much is shown, in characters.
const SHOWN: usize = 100;

#[derive(Debug)]
pub(super) struct UnderstoodLine {
    /// Counted from 1, as an editor counts.
    pub(super) number: u64,
    /// The row's number as typed.
    pub(super) row: String,
    /// Each thing that stands on it: `dial: 10 Hz`.
    pub(super) words: Vec<String>,
}

/// Returns every line of a sheet that has been checked.
pub(super) fn lines(readings: &SheetReadings, sheet: &Sheet) -> Vec<UnderstoodLine> {
    let mut said = Vec::new();
    let mut once = |column, words| said.push((readings.place(column).0, words));
    let entry = &readings.entry;
    for (column, what, text) in [
        (Column::Kit, "kit", entry.kit.trim()),
        (Column::Shared, "readings from", entry.shared.trim()),
    ] {
        if !text.is_empty() {
            once(column, format!("{what}: {text}"));
        }
    }
    for (field, entry) in sheet.whole.iter() {
        once(Column::Figure(field), figure(sheet.method, field, entry));
    }
    for (at, row) in sheet.rows.iter().enumerate() {
        let figures = row.entries.iter();
        let mut words: Vec<_> = figures
            .map(|(field, entry)| figure(sheet.method, field, entry))
            .collect();
        if row.left_out {
            words.push("left out by the group as an anomaly".to_owned());
        }
        let number = readings.row_line(at);
        said.extend(words.into_iter().map(|words| (number, words)));
    }
    for answer in Answer::ALL {
        let text = entry.answers.get(answer).trim();
        if !text.is_empty() {
            let words = format!("{}: “{}”", check::answer(answer), beginning(text));
            said.push((readings.place(Column::Words(answer)).0, words));
        }
    }
    let numbered = readings.lines().into_iter();
    numbered
        .map(|(number, row)| UnderstoodLine {
            number,
            row: row.to_owned(),
            words: said
                .iter()
                .filter(|(line, _)| *line == number)
                .map(|(_, words)| words.clone())
                .collect(),
        })
        .collect()
}

/// `distance between the crests: 5,60 cm (read as 5.6)`.
fn figure(method: Method, field: Field, entry: &Entry) -> String {
    let text = entry.figure.text().trim();
    let mut words = format!("{}: {text}", label(field));
    match (entry.figure.unit(), entry.unit, entry.reading_unit()) {
        (Some(_), ..) | (None, None, None) => {}
        (None, Some(unit), _) => {
            words.push(' ');
            words.push_str(unit.symbol());
        }
        (None, None, Some(_)) => {
            let heading = method.heading_unit(field).map_or("", Unit::symbol);
            words.push_str(&format!(" (no unit given: read as {heading})"));
        }
    }
    if !is_plain(text) {
        words.push_str(&format!(" (read as {})", entry.figure.value()));
    }
    words
}

/// Whether a figure can be read in one way only: digits and a point.
fn is_plain(text: &str) -> bool {
    let mut number = text.trim_end_matches(|c: char| !c.is_ascii_digit()).chars();
    number.all(|c| c.is_ascii_digit() || c == '.' || c == '-')
}

fn beginning(text: &str) -> String {
    let mut shown: String = text.chars().take(SHOWN).collect();
    if text.chars().count() > SHOWN {
        shown.push('…');
    }
    shown
}
