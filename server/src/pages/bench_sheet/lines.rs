//! A sheet as lines of text, for pages that show it without boxes.

use analysis::field::Field;
use analysis::scheme::Answer;
use analysis::sheet::{Cell, Cells};

use super::boxes;
use crate::db::revision::Entry;
use crate::table::{PageTable, Table};
use crate::words::Say;
use crate::words::sheet::as_typed;

/// One filled box.
struct FilledBox {
    label: String,
    /// Figure as typed, with its unit.
    text: String,
}

/// One box of two versions side by side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::pages) struct Pair {
    pub(in crate::pages) label: String,
    /// What is stored; blank where nothing is.
    pub(in crate::pages) stored: String,
    /// What was sent; blank where nothing was.
    pub(in crate::pages) yours: String,
}

impl Pair {
    /// Says whether the two differ.
    pub(in crate::pages) fn differs(&self) -> bool {
        self.stored != self.yours
    }
}

/// Lists every filled box of a sheet, in the order of the form.
fn lines(say: Say, entry: &Entry) -> Vec<FilledBox> {
    let Entry {
        sheet,
        kit,
        shared,
        answers,
    } = entry;
    let mut all = Vec::new();
    for (label, text) in [
        (say.sheet_kit_short(), kit),
        (say.sheet_shared_line(), shared),
    ] {
        if !text.trim().is_empty() {
            all.push(FilledBox {
                label,
                text: text.clone(),
            });
        }
    }
    let spec = sheet.method.spec();
    let worked: Vec<_> = sheet.method.working_columns().collect();
    push(say, &mut all, None, &sheet.whole, spec.whole);
    for (columns, has_ticks) in [
        (spec.columns, true),
        (spec.counted, false),
        (&worked[..], false),
    ] {
        for row in &sheet.rows {
            push(say, &mut all, Some(&row.label), &row.cells, columns);
            if has_ticks && row.left_out {
                all.push(FilledBox {
                    label: say.sheet_left_out_line(&row.label),
                    text: say.sheet_left_out_yes(),
                });
            }
        }
    }
    push(say, &mut all, None, &sheet.whole, spec.results);
    let written = Answer::ALL.map(|answer| (answer, answers.get(answer)));
    for (answer, text) in written.into_iter().filter(|(_, text)| !text.is_empty()) {
        all.push(FilledBox {
            label: say.answer(answer).to_owned(),
            text: text.to_owned(),
        });
    }
    all
}

fn push(say: Say, all: &mut Vec<FilledBox>, row: Option<&str>, cells: &Cells, fields: &[Field]) {
    for field in fields {
        if let Some(cell) = cells.get(field) {
            let name = say.box_name(*field);
            all.push(FilledBox {
                label: row.map_or_else(|| name.to_owned(), |row| say.sheet_row_of(row, name)),
                text: with_sign(*field, cell),
            });
        }
    }
}

/// Returns the figure as typed, with its unit and the sign that stands before
/// its box.
fn with_sign(field: Field, cell: &Cell) -> String {
    let sign = match field {
        Field::DialTimes => "×",
        _ => boxes::sign(field),
    };
    format!("{sign}{}", as_typed(field, cell))
}

/// Returns the filled boxes of a sheet as a table.
pub(super) fn table(say: Say, entry: &Entry, caption: String) -> PageTable {
    Table::of(&lines(say, entry))
        .text(say.typed_box(), |line| &line.label)
        .text(say.typed_you(), |line| &line.text)
        .on_page("", caption)
        .class("typed")
}

/// Returns two versions side by side, in the order of the form.
pub(in crate::pages) fn side_by_side(say: Say, stored: &Entry, yours: &Entry) -> Vec<Pair> {
    let mut pairs: Vec<Pair> = lines(say, stored)
        .into_iter()
        .map(|FilledBox { label, text }| Pair {
            label,
            stored: text,
            yours: String::new(),
        })
        .collect();
    // A box that only the other version has goes after the one before it.
    let mut next = 0;
    for FilledBox { label, text } in lines(say, yours) {
        if let Some(at) = pairs.iter().position(|pair| pair.label == label) {
            pairs[at].yours = text;
            next = at + 1;
        } else {
            let stored = String::new();
            pairs.insert(
                next,
                Pair {
                    label,
                    stored,
                    yours: text,
                },
            );
            next += 1;
        }
    }
    pairs
}
