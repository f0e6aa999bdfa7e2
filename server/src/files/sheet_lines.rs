//! One sheet, put together from its lines.

use std::collections::BTreeMap;

use analysis::field::{Place, Role};
use analysis::method::Method;
use analysis::sheet::{Problem, Sheet, TypedRow, TypedSheet};

use super::column::Column;
use super::fault::Fault;
use super::line::LineCells;
use crate::db::revision::{Answers, Entry};
use crate::words::file;

/// A group's sheet as it stands in a readings file, with the lines that it
/// came from.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetReadings {
    /// The group's label.
    pub group: String,
    /// What the group wrote, exactly as typed.
    pub entry: Entry,
    /// The first line of the sheet.
    pub line: u64,
    /// The line of each row of the sheet.
    row_lines: Vec<u64>,
    /// The line of each thing that a sheet has once.
    once_lines: Vec<(Column, u64)>,
    /// Every row number seen, with its line.
    labels: BTreeMap<String, u64>,
}

impl SheetReadings {
    pub(super) fn new(group: &str, method: Method, line: u64) -> Self {
        Self {
            group: group.to_owned(),
            entry: Entry {
                sheet: TypedSheet {
                    method,
                    whole: BTreeMap::new(),
                    rows: Vec::new(),
                },
                kit: String::new(),
                shared: String::new(),
                answers: Answers::default(),
            },
            line,
            row_lines: Vec::new(),
            once_lines: Vec::new(),
            labels: BTreeMap::new(),
        }
    }

    #[must_use]
    pub fn method(&self) -> Method {
        self.entry.sheet.method
    }

    /// Adds a line of this sheet, as far as it can be read.
    pub(super) fn add(&mut self, line: u64, cells: &LineCells<'_>, faults: &mut Vec<Fault>) {
        let label = cells.row.trim().to_owned();
        if let Some(first) = self.labels.insert(label, line) {
            let reason = file::row_twice(cells.row, first);
            faults.push(Fault::in_column(line, "row", reason));
            return;
        }
        let mut row = TypedRow {
            label: cells.row.to_owned(),
            left_out: cells.left_out,
            ..TypedRow::default()
        };
        let mut once = vec![(Column::Kit, cells.kit), (Column::Shared, cells.shared)];
        once.extend(
            cells
                .words
                .iter()
                .map(|(a, text)| (Column::Words(*a), *text)),
        );
        for &(field, text) in &cells.figures {
            match field.place() {
                Place::Row => row.cells.entry(field).or_default().text = text.to_owned(),
                Place::Sheet => once.push((Column::Figure(field), text)),
            }
        }
        for &(field, unit) in &cells.units {
            match field.place() {
                Place::Row => row.cells.entry(field).or_default().unit = unit.to_owned(),
                Place::Sheet => once.push((Column::Unit(field), unit)),
            }
        }
        for (column, text) in once {
            faults.extend(self.add_once(line, column, text).err());
        }
        row.cells.retain(|_, cell| !cell.text.is_empty());
        if !row.cells.is_empty() {
            self.entry.sheet.rows.push(row);
            self.row_lines.push(line);
        }
    }

    /// Keeps what a sheet has once. The same again is no other, and blanks
    /// round it make it no other.
    fn add_once(&mut self, line: u64, column: Column, text: &str) -> Result<(), Fault> {
        let kept = self.once(column);
        if kept.trim().is_empty() {
            if !text.is_empty() {
                self.set_once(column, text);
                self.once_lines.push((column, line));
            }
            return Ok(());
        }
        if text.trim().is_empty() || kept.trim() == text.trim() {
            return Ok(());
        }
        let reason = file::two_values(text, kept, self.once_line(column));
        Err(Fault::in_column(line, &column.name(), reason))
    }

    fn once(&self, column: Column) -> &str {
        let whole = |field| self.entry.sheet.whole.get(&field);
        match column {
            Column::Kit => &self.entry.kit,
            Column::Shared => &self.entry.shared,
            Column::Words(answer) => self.entry.answers.get(answer),
            Column::Figure(field) => whole(field).map_or("", |cell| &cell.text),
            Column::Unit(field) => whole(field).map_or("", |cell| &cell.unit),
            _ => "",
        }
    }

    fn set_once(&mut self, column: Column, text: &str) {
        let text = text.to_owned();
        let entry = &mut self.entry;
        match column {
            Column::Kit => entry.kit = text,
            Column::Shared => entry.shared = text,
            Column::Words(answer) => entry.answers.set(answer, text),
            Column::Figure(field) => entry.sheet.whole.entry(field).or_default().text = text,
            Column::Unit(field) => entry.sheet.whole.entry(field).or_default().unit = text,
            _ => {}
        }
    }

    /// Ends the sheet: a unit beside a figure that is nowhere is nothing.
    pub(super) fn end(&mut self) {
        let whole = &mut self.entry.sheet.whole;
        whole.retain(|_, cell| !cell.text.is_empty());
    }

    /// Returns the line in which what a sheet has once was given; its first
    /// line where it was not.
    fn once_line(&self, column: Column) -> u64 {
        let mut given = self.once_lines.iter().rev();
        let given = given.find(|(of, _)| *of == column);
        given.map_or(self.line, |(_, line)| *line)
    }

    /// Returns the line of a row of the sheet, from 0.
    #[must_use]
    pub fn row_line(&self, row: usize) -> u64 {
        self.row_lines.get(row).copied().unwrap_or(self.line)
    }

    /// Returns the line in which something that a sheet has once was given,
    /// and the name of its column.
    #[must_use]
    pub fn place(&self, column: Column) -> (u64, String) {
        (self.once_line(column), column.name().into_owned())
    }

    /// Lists every line of the sheet with its row's number, in the order of
    /// the file: also those with nothing in their row.
    #[must_use]
    pub fn lines(&self) -> BTreeMap<u64, &str> {
        let labels = self.labels.iter();
        labels
            .map(|(label, line)| (*line, label.as_str()))
            .collect()
    }

    /// Rows that hold a reading, not only working.
    #[must_use]
    pub fn rows_with_readings(&self) -> usize {
        let reads = |row: &&TypedRow| row.cells.keys().any(|f| f.role() == Role::Reading);
        self.entry.sheet.rows.iter().filter(reads).count()
    }

    /// Checks every box.
    ///
    /// # Errors
    /// The first box in the file that cannot be what it claims to be.
    pub fn check(&self) -> Result<Sheet, Fault> {
        self.check_all().map_err(|faults| {
            let first = faults.into_iter().min_by_key(|fault| fault.line);
            first.unwrap_or_else(|| Fault::in_line(self.line, file::NO_SHEET))
        })
    }

    /// Checks every box, and names each that cannot be what it claims to be.
    ///
    /// # Errors
    /// One fault for each such box, in the order of the work.
    pub fn check_all(&self) -> Result<Sheet, Vec<Fault>> {
        Sheet::check(&self.entry.sheet)
            .map_err(|problems| problems.iter().map(|problem| self.fault(problem)).collect())
    }

    fn fault(&self, problem: &Problem) -> Fault {
        let column = if problem.in_unit {
            Column::Unit(problem.field)
        } else {
            Column::Figure(problem.field)
        };
        let (line, cells) = match problem.row {
            Some(row) => (self.row_line(row), &self.entry.sheet.rows[row].cells),
            None => (self.once_line(column), &self.entry.sheet.whole),
        };
        let text = cells.get(&problem.field).map_or("", |cell| {
            if problem.in_unit {
                &cell.unit
            } else {
                &cell.text
            }
        });
        let reason = file::wrong_box(text, problem.field, &problem.fault);
        Fault::in_column(line, &column.name(), reason)
    }
}
