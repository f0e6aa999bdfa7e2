//! What was typed into the form, box by box, before anything is made of it.
//!
//! Names of boxes: `w.span` of the whole sheet, `r3.span` of the third row,
//! `unit.span` the unit beside a box or in a column's heading, `words.method`
//! an answer in the group's own words.

use std::collections::BTreeMap;

use analysis::field::{Field, Place};
use analysis::method::Method;
use analysis::scheme::Answer;
use analysis::sheet::{Cell, Cells, TypedRow, TypedSheet};

use super::act::Act;
use super::own_words;
use super::rows::{FormRow, MOST_ROWS};
use crate::db::revision::{Answers, Entry};
use crate::web::form::Pairs;

/// A row's label is one number, perhaps with a letter.
pub(in crate::pages) const LONGEST_LABEL: usize = 8;

#[derive(Clone, Debug)]
pub(super) struct SheetForm {
    pub(super) method: Method,
    /// Key of the draft.
    pub(super) draft: String,
    pub(super) kit: String,
    /// Whose readings these are.
    pub(super) shared: String,
    pub(super) whole: BTreeMap<Field, String>,
    pub(super) units: BTreeMap<Field, String>,
    pub(super) rows: Vec<FormRow>,
    /// What the group says in its own words.
    pub(super) answers: Answers,
    pub(super) act: Act,
}

impl SheetForm {
    fn empty(method: Method, draft: String) -> Self {
        Self {
            method,
            draft,
            kit: String::new(),
            shared: String::new(),
            whole: BTreeMap::new(),
            units: BTreeMap::new(),
            rows: Vec::new(),
            answers: Answers::default(),
            act: Act::Save,
        }
    }

    /// Reads a form that was sent. Boxes that this method does not have are
    /// passed over: no page of ours sends them.
    pub(super) fn read(method: Method, pairs: &Pairs) -> Self {
        let mut form = Self::empty(method, pairs.get("draft").to_owned());
        pairs.get("kit").clone_into(&mut form.kit);
        pairs.get("shared").clone_into(&mut form.shared);
        form.act = Act::read(pairs.get("act"));
        for (name, value) in &pairs.0 {
            if let Some((place, box_name)) = name.split_once('.') {
                form.take(place, box_name, value);
            }
        }
        form.number_rows();
        form
    }

    fn take(&mut self, place: &str, box_name: &str, value: &str) {
        if place == own_words::PLACE {
            if let Some(answer) = Answer::from_code(box_name) {
                self.answers.set(answer, own_words::read(value));
            }
            return;
        }
        let field = Field::named(box_name).filter(|f| self.method.has(*f));
        match (place, field) {
            ("unit", Some(field)) => {
                self.units.insert(field, value.to_owned());
            }
            ("w", Some(field)) if field.place() == Place::Sheet => {
                self.whole.insert(field, value.to_owned());
            }
            _ => {
                let number = place
                    .strip_prefix('r')
                    .and_then(|n| n.parse::<usize>().ok());
                let Some(index @ 0..MOST_ROWS) = number.and_then(|n| n.checked_sub(1)) else {
                    return;
                };
                match (box_name, field) {
                    ("label", _) if (1..=LONGEST_LABEL).contains(&value.trim().chars().count()) => {
                        value.trim().clone_into(&mut self.row(index).label);
                    }
                    ("left_out", _) => self.row(index).left_out = true,
                    (_, Some(field)) if field.place() == Place::Row => {
                        self.row(index).boxes.insert(field, value.to_owned());
                    }
                    _ => {}
                }
            }
        }
    }

    /// Returns what is stored, ready to be shown.
    pub(super) fn of_entry(method: Method, entry: Option<&Entry>, draft: String) -> Self {
        let mut form = Self::empty(method, draft);
        if let Some(Entry {
            sheet,
            kit,
            shared,
            answers,
        }) = entry
        {
            form.kit.clone_from(kit);
            form.shared.clone_from(shared);
            form.answers.clone_from(answers);
            form.whole = form.texts(&sheet.whole);
            for row in &sheet.rows {
                let boxes = form.texts(&row.cells);
                form.rows.push(FormRow {
                    label: row.label.clone(),
                    boxes,
                    left_out: row.left_out,
                });
            }
        }
        form.number_rows();
        form
    }

    /// Returns the texts of stored boxes; the first unit of a column becomes
    /// its heading's.
    fn texts(&mut self, cells: &Cells) -> BTreeMap<Field, String> {
        for (field, cell) in cells {
            if !cell.unit.is_empty() {
                self.units
                    .entry(*field)
                    .or_insert_with(|| cell.unit.clone());
            }
        }
        cells
            .iter()
            .map(|(field, cell)| (*field, cell.text.clone()))
            .collect()
    }

    /// Lists what is to be stored, and for each of its rows which row of the
    /// page it is.
    pub(super) fn entry(&self) -> (Entry, Vec<usize>) {
        let mut sheet = TypedSheet {
            method: self.method,
            whole: self.cells(&self.whole),
            rows: Vec::new(),
        };
        let mut places = Vec::new();
        for (index, row) in self
            .rows
            .iter()
            .enumerate()
            .filter(|(_, row)| !row.is_blank())
        {
            let cells = self.cells(&row.boxes);
            sheet.rows.push(TypedRow {
                label: row.label.clone(),
                cells,
                left_out: row.left_out,
            });
            places.push(index);
        }
        (
            Entry {
                sheet,
                kit: self.kit.clone(),
                shared: self.shared.clone(),
                answers: self.answers.clone(),
            },
            places,
        )
    }

    fn cells(&self, texts: &BTreeMap<Field, String>) -> Cells {
        let filled = texts.iter().filter(|(_, text)| !text.trim().is_empty());
        filled
            .map(|(field, text)| {
                let unit = self.units.get(field).cloned().unwrap_or_default();
                (
                    *field,
                    Cell {
                        text: text.clone(),
                        unit,
                    },
                )
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(pairs: &[(&str, &str)]) -> SheetForm {
        let pairs = pairs
            .iter()
            .map(|(n, v)| ((*n).to_owned(), (*v).to_owned()))
            .collect();
        SheetForm::read(Method::RippleTank, &Pairs(pairs))
    }

    #[test]
    fn what_is_shown_again_is_what_was_stored() {
        let form = read(&[
            ("w.scale_image", " 14.0"),
            ("unit.scale_image", "cm"),
            ("r1.dial", "10"),
            ("r3.span", "22,4"),
            ("r3.left_out", "yes"),
            ("unit.span", "cm"),
            ("kit", "Tank 3"),
            ("shared", "group B"),
            ("words.conclusion", "It was\r\nthe same."),
        ]);
        let (entry, places) = form.entry();
        assert_eq!(places, [0, 2]);
        assert_eq!(entry.sheet.rows[1].label, "3");
        assert!(entry.sheet.rows[1].left_out, "the tick is kept");
        let again = SheetForm::of_entry(Method::RippleTank, Some(&entry), String::new());
        assert_eq!(again.entry().0, entry);
        let labels: Vec<_> = again.rows.iter().map(|r| r.label.as_str()).collect();
        assert_eq!(labels, ["1", "3", "4", "5", "6"]);
    }

    #[test]
    fn names_that_are_no_boxes_are_passed_over() {
        let form = read(&[
            ("r0.span", "1"),
            ("r41.span", "1"),
            ("r1.nonsense", "1"),
            ("w.span", "1"),
            ("r1.length", "1"),
        ]);
        assert!(form.entry().0.is_blank(), "{form:?}");
        assert!(form.rows.iter().all(FormRow::is_blank));
    }
}
