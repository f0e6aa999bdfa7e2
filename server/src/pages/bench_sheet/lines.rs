//! A sheet as lines of text, for pages that show it without boxes.

use analysis::field::Field;
use analysis::figure::Figure;
use analysis::scheme::Answer;
use analysis::sheet::{Cell, Cells};

use super::boxes;
use crate::db::revision::Entry;
use crate::table::{PageTable, Table};
use crate::words::Say;

/// One filled box.
struct Line {
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
    /// Whether the two differ.
    pub(in crate::pages) fn differs(&self) -> bool {
        self.stored != self.yours
    }
}

/// Every filled box of a sheet, in the order of the form.
fn lines(say: Say, entry: &Entry) -> Vec<Line> {
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
            all.push(Line {
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
                all.push(Line {
                    label: say.sheet_left_out_line(&row.label),
                    text: say.sheet_left_out_yes(),
                });
            }
        }
    }
    push(say, &mut all, None, &sheet.whole, spec.results);
    let written = Answer::ALL.map(|answer| (answer, answers.get(answer)));
    for (answer, text) in written.into_iter().filter(|(_, text)| !text.is_empty()) {
        all.push(Line {
            label: say.answer(answer).to_owned(),
            text: text.to_owned(),
        });
    }
    all
}

fn push(say: Say, all: &mut Vec<Line>, row: Option<&str>, cells: &Cells, fields: &[Field]) {
    for field in fields {
        if let Some(cell) = cells.get(field) {
            let name = say.box_name(*field);
            all.push(Line {
                label: row.map_or_else(|| name.to_owned(), |row| say.sheet_row_of(row, name)),
                text: with_unit(*field, cell),
            });
        }
    }
}

/// The figure as typed, with the unit chosen or fixed for it unless one was
/// typed after it.
fn with_unit(field: Field, Cell { text, unit }: &Cell) -> String {
    if field == Field::DialTimes {
        return format!("×{text}");
    }
    let sign = boxes::sign(field);
    let fixed = field.fixed_unit().map_or("", analysis::unit::Unit::symbol);
    let unit = if unit.is_empty() { fixed } else { unit };
    let has_its_own =
        Figure::parse(text).is_ok_and(|figure| figure.is_some_and(|f| f.unit().is_some()));
    if unit.is_empty() || has_its_own {
        format!("{sign}{text}")
    } else {
        format!("{sign}{text} {unit}")
    }
}

/// The filled boxes of a sheet as a table.
pub(super) fn table(say: Say, entry: &Entry, caption: String) -> PageTable {
    Table::of(&lines(say, entry))
        .text(say.typed_box(), |line| &line.label)
        .text(say.typed_you(), |line| &line.text)
        .on_page("", caption)
        .class("typed")
}

/// Two versions side by side, in the order of the form.
pub(in crate::pages) fn side_by_side(say: Say, stored: &Entry, yours: &Entry) -> Vec<Pair> {
    let mut pairs: Vec<Pair> = lines(say, stored)
        .into_iter()
        .map(|Line { label, text }| Pair {
            label,
            stored: text,
            yours: String::new(),
        })
        .collect();
    // A box that only the other version has goes after the one before it.
    let mut next = 0;
    for Line { label, text } in lines(say, yours) {
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

#[cfg(test)]
mod tests {
    use super::*;

    fn cell(text: &str, unit: &str) -> Cell {
        Cell {
            text: text.to_owned(),
            unit: unit.to_owned(),
        }
    }

    #[test]
    fn unit_is_shown_once() {
        for (field, text, unit, shown) in [
            (Field::Span, "16.6", "cm", "16.6 cm"),
            (Field::Span, "16.6 cm", "cm", "16.6 cm"),
            (Field::Span, "166mm", "cm", "166mm"),
            (Field::Span, "2O", "cm", "2O cm"),
            (Field::Dial, "10", "", "10 Hz"),
            (Field::Dial, "10 Hz", "", "10 Hz"),
            (Field::DialTimes, "10", "", "×10"),
            (Field::Loops, "3", "", "3"),
            (Field::Uncertainty, "0.02", "m/s", "±0.02 m/s"),
        ] {
            assert_eq!(with_unit(field, &cell(text, unit)), shown);
        }
    }
}
