//! The rows of the form: filled or not, added, readied for a repeat.

use std::collections::{BTreeMap, HashSet};

use analysis::field::Field;

use super::form::SheetForm;

/// Rows that an empty sheet shows.
const FEWEST_ROWS: usize = 5;
/// Rows beyond which the page offers no more.
pub(in crate::pages) const MOST_ROWS: usize = 40;

/// One row as the page shows it, filled or not.
#[derive(Clone, Debug, Default)]
pub(super) struct FormRow {
    pub(super) label: String,
    pub(super) boxes: BTreeMap<Field, String>,
    pub(super) left_out: bool,
}

impl SheetForm {
    /// Returns a row of the page, made if need be and labelled with its place.
    pub(super) fn row(&mut self, index: usize) -> &mut FormRow {
        while self.rows.len() <= index {
            let label = (self.rows.len() + 1).to_string();
            self.rows.push(FormRow {
                label,
                ..FormRow::default()
            });
        }
        &mut self.rows[index]
    }

    /// Fills up to the rows that a page shows, and labels those without label,
    /// or with one that another row has: rows are known by their labels.
    pub(super) fn number_rows(&mut self) {
        let mut taken = HashSet::new();
        for row in &mut self.rows {
            if !taken.insert(row.label.clone()) {
                row.label.clear();
            }
        }
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

    /// Adds so many empty rows, as far as there is room. The first of them.
    /// Returns `None` when there was no room.
    pub(super) fn add_rows(&mut self, count: usize) -> Option<usize> {
        let first = self.rows.len();
        let length = (first + count).min(MOST_ROWS);
        self.rows.resize_with(length, FormRow::default);
        self.number_rows();
        (first < length).then_some(first)
    }

    /// Readies a row with the dial and multiplier of this one. Which it is.
    /// Returns `None` when there was no room, or no such row.
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
}

impl FormRow {
    pub(super) fn is_blank(&self) -> bool {
        self.boxes
            .iter()
            .all(|(field, text)| *field == Field::DialTimes || text.trim().is_empty())
    }
}

#[cfg(test)]
mod tests {
    use analysis::method::Method;

    use super::*;
    use crate::web::form::Pairs;

    fn read(pairs: &[(&str, &str)]) -> SheetForm {
        let pairs = pairs
            .iter()
            .map(|(n, v)| ((*n).to_owned(), (*v).to_owned()))
            .collect();
        SheetForm::read(Method::RippleTank, &Pairs(pairs))
    }

    #[test]
    fn no_two_rows_have_one_label() {
        let form = read(&[
            ("r1.label", "2"),
            ("r1.span", "3"),
            ("r2.label", " 2"),
            ("r2.span", "4"),
        ]);
        let (entry, _) = form.entry();
        let labels: Vec<_> = entry.sheet.rows.iter().map(|r| r.label.as_str()).collect();
        assert_eq!(labels, ["2", "3"]);
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
