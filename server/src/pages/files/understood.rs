//! What was understood of each line of a sheet, in words.

use analysis::scheme::Answer;
use analysis::sheet::Sheet;

use crate::files::{Column, SheetReadings};
use crate::words::{check, taking_in};

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
    let heading = |field| sheet.method.heading_unit(field);
    let figure = |field, entry| taking_in::figure(field, entry, heading(field));
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
        once(Column::Figure(field), figure(field, entry));
    }
    for (at, row) in sheet.rows.iter().enumerate() {
        let figures = row.entries.iter();
        let mut words: Vec<_> = figures.map(|(field, entry)| figure(field, entry)).collect();
        if row.left_out {
            words.push(taking_in::LEFT_OUT.to_owned());
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

fn beginning(text: &str) -> String {
    let mut shown: String = text.chars().take(SHOWN).collect();
    if text.chars().count() > SHOWN {
        shown.push('…');
    }
    shown
}
