//! What goes out as rows: a [`Table`], written as CSV, as a sheet of a
//! [`workbook()`] or as a [`PageTable`].

pub(crate) mod cell;
mod page;
mod workbook;

use std::io::Write;

use analysis::interval::Interval;

pub use cell::Cell;
pub use page::PageTable;
pub use workbook::{WorkbookError, workbook};

/// Rows under named columns.
#[derive(Clone, Debug, Default)]
pub struct Table {
    columns: Vec<Column>,
    /// One cell for each column.
    rows: Vec<Vec<Cell>>,
    /// Place of the column that names the rows.
    heading: usize,
    /// Class of each row in the stylesheet.
    classes: Vec<&'static str>,
}

#[derive(Clone, Debug)]
struct Column {
    name: Cell,
    /// What a page has below the name: a unit, or what else is in the cells.
    unit: String,
    kind: Kind,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Text,
    /// Text that a page does not break into lines.
    Name,
    /// Sentences, which a page gives some room.
    Words,
    /// Numbers for a spreadsheet, where they are plain ones.
    Figure,
}

/// A table that is being made, column by column: each says its name and what
/// stands in it for each of the lines.
#[derive(Debug)]
pub struct Columns<'t, T> {
    lines: &'t [T],
    table: Table,
}

impl Table {
    /// Begins a table with a row for each of these lines.
    pub fn of<T>(lines: &[T]) -> Columns<'_, T> {
        let table = Self {
            rows: lines.iter().map(|_| Vec::new()).collect(),
            classes: vec![""; lines.len()],
            ..Self::default()
        };
        Columns { lines, table }
    }

    /// Adds the rows of a table with the same columns.
    pub fn append(&mut self, mut other: Self) {
        self.rows.append(&mut other.rows);
        self.classes.append(&mut other.classes);
    }

    /// Returns the number of rows.
    #[must_use]
    pub fn height(&self) -> usize {
        self.rows.len()
    }

    /// Returns the whole table as a CSV file.
    ///
    /// # Errors
    /// When a row cannot be written.
    pub fn csv(&self) -> csv::Result<Vec<u8>> {
        let mut out = csv::Writer::from_writer(Vec::new());
        self.write_names(&mut out)?;
        self.write_rows(&mut out)?;
        out.into_inner().map_err(|error| error.into_error().into())
    }

    /// Writes the line of column names.
    ///
    /// # Errors
    /// When the output takes no more.
    pub fn write_names<W: Write>(&self, out: &mut csv::Writer<W>) -> csv::Result<()> {
        out.write_record(self.columns.iter().map(|column| &*column.name.text))
    }

    /// Writes the rows, guarded against spreadsheets that would run a cell.
    ///
    /// # Errors
    /// When the output takes no more.
    pub fn write_rows<W: Write>(&self, out: &mut csv::Writer<W>) -> csv::Result<()> {
        for row in &self.rows {
            for cell in row {
                out.write_field(&*cell::typed(&cell.text))?;
            }
            out.write_record(None::<&[u8]>)?;
        }
        Ok(())
    }
}

impl<'t, T> Columns<'t, T> {
    /// Adds a column of text.
    #[must_use]
    pub fn text<C: Into<Cell>>(self, name: impl Into<Cell>, of: impl Fn(&'t T) -> C) -> Self {
        self.column(name.into(), Kind::Text, of)
    }

    /// Adds a column of names, dates and other text that is not broken into
    /// lines.
    #[must_use]
    pub fn name<C: Into<Cell>>(self, name: impl Into<Cell>, of: impl Fn(&'t T) -> C) -> Self {
        self.column(name.into(), Kind::Name, of)
    }

    /// Adds a column of sentences.
    #[must_use]
    pub fn words<C: Into<Cell>>(self, name: impl Into<Cell>, of: impl Fn(&'t T) -> C) -> Self {
        self.column(name.into(), Kind::Words, of)
    }

    /// Adds a column of figures, printed as they stand: counts, and what
    /// somebody typed.
    #[must_use]
    pub fn figure<C: Into<Cell>>(self, name: impl Into<Cell>, of: impl Fn(&'t T) -> C) -> Self {
        self.column(name.into(), Kind::Figure, of)
    }

    /// Says that the newest column names the rows, and not the first.
    #[must_use]
    pub fn heading(mut self) -> Self {
        self.table.heading = self.table.columns.len().saturating_sub(1);
        self
    }

    /// Gives the rows of which that is so a class of the stylesheet.
    #[must_use]
    pub fn marked(mut self, class: &'static str, is_marked: impl Fn(&'t T) -> bool) -> Self {
        for (of, line) in self.table.classes.iter_mut().zip(self.lines) {
            if is_marked(line) {
                *of = class;
            }
        }
        self
    }

    /// Says what a page has below the name of the newest column: a unit, or
    /// what else is in its cells. Files leave it out.
    #[must_use]
    pub fn unit(mut self, unit: impl Into<String>) -> Self {
        if let Some(column) = self.table.columns.last_mut() {
            column.unit = unit.into();
        }
        self
    }

    /// Adds a column of numbers, printed to six significant figures.
    #[must_use]
    pub fn number(self, name: impl Into<Cell>, of: impl Fn(&'t T) -> Option<f64>) -> Self {
        self.figure(name, |line| cell::number(of(line)))
    }

    /// Adds a column of estimates, and the ends of their 95 % intervals in
    /// `…_low` and `…_high`. An end that is not finite is blank.
    #[must_use]
    pub fn estimate<E: Into<[f64; 3]>>(
        self,
        name: &'static str,
        of: impl Fn(&'t T) -> Option<E>,
    ) -> Self {
        let of = |line| of(line).map(Into::into);
        self.number(name, |line| of(line).map(|[value, ..]| value))
            .ends(name, |line| {
                of(line).map(|[_, low, high]| Interval { low, high })
            })
    }

    /// Adds the ends of intervals in `…_low` and `…_high`.
    #[must_use]
    pub fn ends(self, name: &str, of: impl Fn(&'t T) -> Option<Interval>) -> Self {
        self.number(format!("{name}_low"), |line| of(line).map(|ends| ends.low))
            .number(format!("{name}_high"), |line| {
                of(line).map(|ends| ends.high)
            })
    }

    fn column<C: Into<Cell>>(mut self, name: Cell, kind: Kind, of: impl Fn(&'t T) -> C) -> Self {
        let unit = String::new();
        self.table.columns.push(Column { name, unit, kind });
        for (row, line) in self.table.rows.iter_mut().zip(self.lines) {
            row.push(of(line).into());
        }
        self
    }

    /// Returns the finished table for a page. It can be scrolled in a region
    /// with this label; without a label, it cannot. A caption may be blank.
    pub fn on_page(self, label: impl Into<String>, caption: impl Into<String>) -> PageTable {
        PageTable::new(self.table, label.into(), caption.into())
    }

    /// Returns the finished table.
    #[must_use]
    pub fn table(self) -> Table {
        self.table
    }
}

#[cfg(test)]
mod tests {
    use calamine::{Data, Reader as _, Xlsx};

    use super::*;

    fn table(lines: &[&str]) -> Table {
        let interval = Interval {
            low: 0.5,
            high: 2.0,
        };
        Table::of(lines)
            .text("label", |label| label)
            .figure("span", |label| label)
            .ends("ratio", |label| Some(interval).filter(|_| *label == "5.60"))
            .table()
    }

    fn csv(lines: &[&str]) -> String {
        String::from_utf8(table(lines).csv().expect("a file")).expect("text")
    }

    #[test]
    fn csv_names_its_columns_and_guards_what_a_spreadsheet_would_run() {
        assert_eq!(csv(&[]), "label,span,ratio_low,ratio_high\n");
        assert_eq!(
            csv(&["5.60", "=A1"]),
            "label,span,ratio_low,ratio_high\n5.60,5.60,0.500000,2.00000\n'=A1,'=A1,,\n"
        );
    }

    #[test]
    fn only_figures_are_numbers_in_a_workbook_and_nothing_is_guarded() {
        let bytes = workbook(&[("Rows", table(&["5.60", "=A1"]))], 0).expect("a workbook");
        let mut book = Xlsx::new(std::io::Cursor::new(bytes)).expect("a workbook");
        let sheet = book.worksheet_range("Rows").expect("a sheet");
        let rows: Vec<_> = sheet.rows().skip(1).map(<[Data]>::to_vec).collect();
        let text = |text: &str| Data::String(text.to_owned());
        let first = [
            text("5.60"),
            Data::Float(5.6),
            Data::Float(0.5),
            Data::Float(2.0),
        ];
        let second = [text("=A1"), text("=A1"), Data::Empty, Data::Empty];
        assert_eq!(rows, [first, second]);
    }
}
