//! One line of a readings file, its cells sorted.

use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::Answer;
use analysis::unit::Unit;

use super::column::Column;
use super::csv_lines::CsvLines;
use super::fault::Fault;
use crate::table::cell;
use crate::words::file;

/// Methods of the format that are not built yet.
const NOT_BUILT: [&str; 2] = ["rod-ring", "timed-pulse"];

/// The cells of a line, each where it belongs; blank ones are blank text.
#[derive(Default)]
pub(super) struct Line<'t> {
    pub(super) class: &'t str,
    pub(super) group: &'t str,
    pub(super) method: &'t str,
    pub(super) cells: LineCells<'t>,
}

/// What a line says of its sheet, blank figures and units left out.
#[derive(Debug, Default)]
pub(super) struct LineCells<'t> {
    pub(super) row: &'t str,
    pub(super) kit: &'t str,
    pub(super) shared: &'t str,
    pub(super) left_out: bool,
    pub(super) figures: Vec<(Field, &'t str)>,
    pub(super) units: Vec<(Field, &'t str)>,
    pub(super) words: Vec<(Answer, &'t str)>,
}

impl<'t> Line<'t> {
    /// Sorts the cells of the table's current line. A cell that cannot be read
    /// is passed over, and added to the faults.
    pub(super) fn of(table: &'t CsvLines<'_>, columns: &[Column], faults: &mut Vec<Fault>) -> Self {
        let mut line = Self::default();
        for (index, column) in columns.iter().enumerate() {
            let cell = table.cell(index, &column.name(), column.longest());
            let taken = cell.and_then(|cell| line.take(table.line(), *column, cell::read(cell)));
            faults.extend(taken.err());
        }
        line
    }

    /// Puts a cell in its place. Figures, labels of rows and words are kept as
    /// they were typed, with the blanks round them; words even where they are
    /// nothing but blanks.
    fn take(&mut self, number: u64, column: Column, as_typed: &'t str) -> Result<(), Fault> {
        let text = as_typed.trim();
        match column {
            Column::Kit => self.cells.kit = as_typed,
            Column::Shared => self.cells.shared = as_typed,
            Column::Words(answer) => self.cells.words.push((answer, as_typed)),
            _ if text.is_empty() => {}
            Column::Class => self.class = text,
            Column::Group => self.group = text,
            Column::Method => self.method = text,
            Column::Row => self.cells.row = as_typed,
            Column::LeftOut => self.cells.left_out = yes_or_no(number, text)?,
            Column::Figure(field) => self.cells.figures.push((field, as_typed)),
            Column::Unit(field) => {
                let unit = unit(number, field, as_typed)?;
                self.cells.units.push((field, unit));
            }
            Column::Lengths | Column::Nameless => {
                let reason = file::cannot_stand(text);
                return Err(Fault::in_column(number, &column.name(), reason));
            }
        }
        Ok(())
    }

    /// Returns the method of its sheet.
    pub(super) fn method(&self, number: u64) -> Result<Method, Fault> {
        let code = self.method;
        Method::from_code(code).ok_or_else(|| {
            let reason = file::method(code, NOT_BUILT.contains(&code));
            Fault::in_column(number, "method", reason)
        })
    }
}

fn yes_or_no(number: u64, text: &str) -> Result<bool, Fault> {
    match text.to_ascii_lowercase().as_str() {
        "yes" => Ok(true),
        "no" => Ok(false),
        _ => Err(Fault::in_column(number, "left_out", file::yes_or_no(text))),
    }
}

/// Units are looked at even beside a blank figure.
fn unit(number: u64, field: Field, text: &str) -> Result<&str, Fault> {
    let known = Unit::parse(text).is_some_and(|unit| unit.quantity() == field.quantity());
    if known {
        return Ok(text);
    }
    let column = Column::Unit(field).name();
    Err(Fault::in_column(number, &column, file::unit(field, text)))
}
