//! What was understood of each line of a sheet, in words.

use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::Answer;
use analysis::sheet::{Entry, Sheet};
use analysis::unit::Unit;

use crate::files::SheetReadings;

/// Of an answer, so much is shown, in characters.
const SHOWN: usize = 100;

/// One line of the file.
#[derive(Debug)]
pub(super) struct UnderstoodLine {
    /// Counted from 1, as an editor counts.
    pub(super) number: u64,
    /// The row's number as typed.
    pub(super) row: String,
    /// Each thing that stands on it: `dial: 10 Hz`.
    pub(super) words: Vec<String>,
}

/// Every line of a sheet that has been checked.
pub(super) fn lines(readings: &SheetReadings, sheet: &Sheet) -> Vec<UnderstoodLine> {
    let numbered = readings.lines();
    let mut lines: Vec<_> = numbered
        .into_iter()
        .map(|(number, row)| UnderstoodLine {
            number,
            row: row.to_owned(),
            words: Vec::new(),
        })
        .collect();
    let mut say = |number: u64, words: String| {
        let line = lines.iter_mut().find(|line| line.number == number);
        if let Some(line) = line {
            line.words.push(words);
        }
    };
    for (text, what, (number, _)) in [
        (&readings.entry.kit, "kit", readings.kit_place()),
        (
            &readings.entry.shared,
            "readings from",
            readings.shared_place(),
        ),
    ] {
        if !text.trim().is_empty() {
            say(number, format!("{what}: {}", text.trim()));
        }
    }
    for (field, entry) in sheet.whole.iter() {
        say(
            readings.whole_line(field),
            figure(sheet.method, field, entry),
        );
    }
    for (at, row) in sheet.rows.iter().enumerate() {
        for (field, entry) in row.entries.iter() {
            say(readings.row_line(at), figure(sheet.method, field, entry));
        }
        if row.left_out {
            say(
                readings.row_line(at),
                "left out by the group as an anomaly".to_owned(),
            );
        }
    }
    for answer in Answer::ALL {
        let text = readings.entry.answers.get(answer).trim();
        if !text.is_empty() {
            let (number, _) = readings.answer_place(answer);
            say(number, format!("{}: “{}”", answer.label(), beginning(text)));
        }
    }
    lines
}

/// `distance between the crests: 5,60 cm (read as 5.6)`.
fn figure(method: Method, field: Field, entry: &Entry) -> String {
    let text = entry.figure.text().trim();
    let mut words = format!("{}: {text}", field.label());
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
