//! What was typed into the form, box by box, before anything is made of it.
//!
//! Names of boxes: `w.span` of the whole sheet, `r3.span` of the third row,
//! `unit.span` the unit beside a box or in a column's heading.

use std::collections::BTreeMap;

use analysis::field::{Field, Place};
use analysis::method::Method;
use analysis::sheet::{Cell, Cells, TypedRow, TypedSheet};

use super::act::Act;
use crate::db::revision::{Answers, Entry};
use crate::form::Pairs;

/// Rows that an empty sheet shows.
const FEWEST_ROWS: usize = 5;
/// Rows beyond which the page offers no more.
pub(super) const MOST_ROWS: usize = 40;
/// A row's label is one number, perhaps with a letter.
const LONGEST_LABEL: usize = 8;

/// One row as the page shows it, filled or not.
#[derive(Clone, Debug, Default)]
pub(super) struct FormRow {
    pub(super) label: String,
    pub(super) boxes: BTreeMap<Field, String>,
    pub(super) left_out: bool,
}

/// The whole form.
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

    /// A row of the page, made if need be and labelled with its place.
    fn row(&mut self, index: usize) -> &mut FormRow {
        while self.rows.len() <= index {
            let label = (self.rows.len() + 1).to_string();
            self.rows.push(FormRow {
                label,
                ..FormRow::default()
            });
        }
        &mut self.rows[index]
    }

    /// What is stored, ready to be shown.
    pub(super) fn of_entry(method: Method, entry: Option<&Entry>, draft: String) -> Self {
        let mut form = Self::empty(method, draft);
        if let Some(Entry {
            sheet,
            kit,
            shared,
            answers: _,
        }) = entry
        {
            form.kit.clone_from(kit);
            form.shared.clone_from(shared);
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

    /// The texts of stored boxes; the first unit of a column becomes its heading's.
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

    /// Fills up to the rows that a page shows, and labels those without label.
    fn number_rows(&mut self) {
        if self.rows.len() < FEWEST_ROWS {
            self.rows.resize_with(FEWEST_ROWS, FormRow::default);
        }
        let mut highest = self
            .rows
            .iter()
            .filter_map(|r| r.label.parse::<u64>().ok())
            .max()
            .unwrap_or(0)
            .min(9999);
        for row in self.rows.iter_mut().filter(|r| r.label.is_empty()) {
            highest += 1;
            row.label = highest.to_string();
        }
    }

    /// Adds so many empty rows, as far as there is room. The first of them,
    /// `None` where there was no room.
    pub(super) fn add_rows(&mut self, count: usize) -> Option<usize> {
        let first = self.rows.len();
        let length = (first + count).min(MOST_ROWS);
        self.rows.resize_with(length, FormRow::default);
        self.number_rows();
        (first < length).then_some(first)
    }

    /// Readies a row with the dial and multiplier of this one. Which it is;
    /// `None` where there was no room, or no such row.
    pub(super) fn repeat(&mut self, index: usize) -> Option<usize> {
        let dial = [Field::Dial, Field::DialTimes];
        let row = self.rows.get(index)?;
        let boxes = row
            .boxes
            .iter()
            .filter(|(f, _)| dial.contains(f))
            .map(|(f, t)| (*f, t.clone()))
            .collect();
        // The first row with nothing in it will do, if it comes after.
        let blank = (index + 1..self.rows.len()).find(|&i| self.rows[i].is_blank());
        match blank {
            Some(free) => {
                self.rows[free].boxes = boxes;
                Some(free)
            }
            None if self.rows.len() < MOST_ROWS => {
                self.rows.push(FormRow {
                    boxes,
                    ..FormRow::default()
                });
                self.number_rows();
                Some(self.rows.len() - 1)
            }
            None => None,
        }
    }

    /// What is to be stored, and for each of its rows which row of the page it is.
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
                answers: Answers::default(),
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

impl FormRow {
    fn is_blank(&self) -> bool {
        self.boxes
            .iter()
            .all(|(field, text)| *field == Field::DialTimes || text.trim().is_empty())
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
        assert_eq!(form.rows.len(), FEWEST_ROWS);
    }

    #[test]
    fn repeat_takes_the_dial_to_the_next_empty_row() {
        let mut form = read(&[
            ("r1.dial", "10"),
            ("r1.dial_times", "10"),
            ("r1.span", "3"),
            ("r2.dial", "20"),
        ]);
        assert_eq!(form.repeat(0), Some(2));
        assert_eq!(form.rows[2].boxes[&Field::Dial], "10");
        assert_eq!(form.rows[2].boxes[&Field::DialTimes], "10");
        assert!(
            !form.rows[2].boxes.contains_key(&Field::Span),
            "only the dial"
        );
        assert_eq!(form.repeat(99), None);
        assert_eq!(form.rows.len(), FEWEST_ROWS);
    }

    #[test]
    fn rows_end_at_a_limit() {
        let mut form = read(&[]);
        for _ in 0..30 {
            let _ = form.add_rows(2);
        }
        assert_eq!(form.add_rows(2), None);
        assert_eq!(form.rows.len(), MOST_ROWS);
    }
}
