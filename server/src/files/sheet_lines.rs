//! One sheet, put together from its lines.

use std::collections::BTreeMap;

use analysis::field::{Field, Place, Role};
use analysis::method::Method;
use analysis::sheet::{Problem, Sheet, TypedRow, TypedSheet};

use super::fault::{Fault, quoted};

/// A group's sheet as it stands in a readings file, with the lines that it
/// came from.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetReadings {
    /// The group's label.
    pub group: String,
    /// The label of the apparatus; blank where none was given.
    pub kit: String,
    /// Whose readings they are said to be; blank where they are the group's
    /// own.
    pub shared: String,
    /// The sheet, exactly as typed.
    pub typed: TypedSheet,
    /// The first line of the sheet.
    pub line: u64,
    kit_line: u64,
    shared_line: u64,
    /// The line of each row of `typed`.
    row_lines: Vec<u64>,
    /// The lines of a whole sheet's figures and of their units.
    whole_lines: BTreeMap<Field, WholeLines>,
    /// Every row number seen, with its line.
    labels: BTreeMap<String, u64>,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct WholeLines {
    text: u64,
    unit: u64,
}

/// The cells of one line, blank ones left out.
#[derive(Debug, Default)]
pub(super) struct LineCells<'t> {
    pub(super) row: &'t str,
    pub(super) kit: &'t str,
    pub(super) shared: &'t str,
    pub(super) left_out: bool,
    pub(super) figures: Vec<(Field, &'t str)>,
    pub(super) units: Vec<(Field, &'t str)>,
}

impl SheetReadings {
    pub(super) fn new(group: &str, method: Method, line: u64) -> Self {
        Self {
            group: group.to_owned(),
            kit: String::new(),
            shared: String::new(),
            typed: TypedSheet {
                method,
                whole: BTreeMap::new(),
                rows: Vec::new(),
            },
            line,
            kit_line: line,
            shared_line: line,
            row_lines: Vec::new(),
            whole_lines: BTreeMap::new(),
            labels: BTreeMap::new(),
        }
    }

    /// Adds a line of this sheet.
    pub(super) fn add(&mut self, line: u64, cells: &LineCells<'_>) -> Result<(), Fault> {
        let label = cells.row.trim().to_owned();
        if let Some(first) = self.labels.insert(label, line) {
            let reason = format!(
                "row {} of this sheet is in line {first} already.",
                quoted(cells.row)
            );
            return Err(Fault::in_column(line, "row", reason));
        }
        if !cells.kit.is_empty() {
            once(&mut self.kit, cells.kit, self.kit_line)
                .map_err(|reason| Fault::in_column(line, "kit", reason))?;
            self.kit_line = line;
        }
        if !cells.shared.is_empty() {
            once(&mut self.shared, cells.shared, self.shared_line)
                .map_err(|reason| Fault::in_column(line, "shared", reason))?;
            self.shared_line = line;
        }
        let mut row = TypedRow {
            label: cells.row.to_owned(),
            left_out: cells.left_out,
            ..TypedRow::default()
        };
        for &(field, text) in &cells.figures {
            match field.place() {
                Place::Row => row.cells.entry(field).or_default().text = text.to_owned(),
                Place::Sheet => self.add_whole(line, field, text)?,
            }
        }
        for &(field, unit) in &cells.units {
            match field.place() {
                Place::Row => row.cells.entry(field).or_default().unit = unit.to_owned(),
                Place::Sheet => self.add_whole_unit(line, field, unit)?,
            }
        }
        row.cells.retain(|_, cell| !cell.text.is_empty());
        if !row.cells.is_empty() {
            self.typed.rows.push(row);
            self.row_lines.push(line);
        }
        Ok(())
    }

    fn add_whole(&mut self, line: u64, field: Field, text: &str) -> Result<(), Fault> {
        let lines = self.whole_lines.entry(field).or_default();
        let kept = &mut self.typed.whole.entry(field).or_default().text;
        once(kept, text, lines.text)
            .map_err(|reason| Fault::in_column(line, field.name(), reason))?;
        lines.text = line;
        Ok(())
    }

    fn add_whole_unit(&mut self, line: u64, field: Field, unit: &str) -> Result<(), Fault> {
        let lines = self.whole_lines.entry(field).or_default();
        let kept = &mut self.typed.whole.entry(field).or_default().unit;
        once(kept, unit, lines.unit)
            .map_err(|reason| Fault::in_column(line, &format!("{}_unit", field.name()), reason))?;
        lines.unit = line;
        Ok(())
    }

    /// Rows that hold a reading, not only working.
    #[must_use]
    pub fn rows_with_readings(&self) -> usize {
        let reads = |row: &&TypedRow| row.cells.keys().any(|f| f.role() == Role::Reading);
        self.typed.rows.iter().filter(reads).count()
    }

    /// Checks every box.
    ///
    /// # Errors
    /// The first box in the file that cannot be what it claims to be.
    pub fn check(&self) -> Result<Sheet, Fault> {
        Sheet::check(&self.typed).map_err(|problems| {
            let faults = problems.iter().map(|problem| self.fault(problem));
            faults
                .min_by_key(|fault| fault.line)
                .unwrap_or_else(|| Fault::in_line(self.line, "this sheet cannot be read."))
        })
    }

    fn fault(&self, problem: &Problem) -> Fault {
        let name = problem.field.name();
        let column = if problem.in_unit {
            format!("{name}_unit")
        } else {
            name.to_owned()
        };
        let line = match problem.row {
            Some(row) => self.row_lines.get(row).copied(),
            None => self.whole_lines.get(&problem.field).map(|lines| {
                if problem.in_unit {
                    lines.unit
                } else {
                    lines.text
                }
            }),
        };
        let cells = match problem.row {
            Some(row) => &self.typed.rows[row].cells,
            None => &self.typed.whole,
        };
        let text = cells.get(&problem.field).map_or("", |cell| {
            if problem.in_unit {
                &cell.unit
            } else {
                &cell.text
            }
        });
        Fault {
            line: line.unwrap_or(self.line),
            column: Some(column),
            reason: format!("{}: {}", quoted(text), problem.reason),
        }
    }
}

/// Keeps a value that a sheet has once; the same text again is no other.
fn once(kept: &mut String, text: &str, earlier: u64) -> Result<(), String> {
    if kept.is_empty() {
        text.clone_into(kept);
    }
    if kept == text {
        return Ok(());
    }
    Err(format!(
        "{} here, but {} in line {earlier}: a sheet has one value of it.",
        quoted(text),
        quoted(kept)
    ))
}
