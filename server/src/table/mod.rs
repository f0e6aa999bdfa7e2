//! What goes out as rows: a [`Table`], written as CSV or as a sheet of a
//! [`workbook`].

pub(crate) mod cell;
mod workbook;

use std::borrow::Cow;
use std::io::Write;

pub use workbook::{WorkbookError, workbook};

/// Rows under named columns.
#[derive(Clone, Debug, Default)]
pub struct Table {
    columns: Vec<Column>,
    /// One cell for each column, as it is printed.
    rows: Vec<Vec<String>>,
}

#[derive(Clone, Debug)]
struct Column {
    name: Cow<'static, str>,
    kind: Kind,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Text,
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
        let rows = lines.iter().map(|_| Vec::new()).collect();
        let columns = Vec::new();
        let table = Self { columns, rows };
        Columns { lines, table }
    }

    /// Adds the rows of a table with the same columns.
    pub fn append(&mut self, mut other: Self) {
        self.rows.append(&mut other.rows);
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
        out.write_record(self.columns.iter().map(|column| &*column.name))
    }

    /// Writes the rows, guarded against spreadsheets that would run a cell.
    ///
    /// # Errors
    /// When the output takes no more.
    pub fn write_rows<W: Write>(&self, out: &mut csv::Writer<W>) -> csv::Result<()> {
        for row in &self.rows {
            for text in row {
                out.write_field(&*cell::typed(text))?;
            }
            out.write_record(None::<&[u8]>)?;
        }
        Ok(())
    }
}

impl<'t, T> Columns<'t, T> {
    /// Adds a column of text.
    #[must_use]
    pub fn text<S: ToString>(
        self,
        name: impl Into<Cow<'static, str>>,
        of: impl Fn(&'t T) -> S,
    ) -> Self {
        self.column(name.into(), Kind::Text, of)
    }

    /// Adds a column of figures, printed as they stand: counts, and what
    /// somebody typed.
    #[must_use]
    pub fn figure<S: ToString>(
        self,
        name: impl Into<Cow<'static, str>>,
        of: impl Fn(&'t T) -> S,
    ) -> Self {
        self.column(name.into(), Kind::Figure, of)
    }

    /// Adds a column of numbers, printed to six significant figures.
    #[must_use]
    pub fn number(self, name: &'static str, of: impl Fn(&'t T) -> Option<f64>) -> Self {
        self.figure(name, |line| cell::number(of(line)))
    }

    /// Adds a column for each of several numbers that are known together,
    /// such as the two ends of an interval.
    #[must_use]
    pub fn numbers<const N: usize>(
        mut self,
        names: [&'static str; N],
        of: impl Fn(&'t T) -> Option<[f64; N]>,
    ) -> Self {
        for (at, name) in names.into_iter().enumerate() {
            self = self.number(name, |line| of(line).map(|numbers| numbers[at]));
        }
        self
    }

    fn column<S: ToString>(
        mut self,
        name: Cow<'static, str>,
        kind: Kind,
        of: impl Fn(&'t T) -> S,
    ) -> Self {
        self.table.columns.push(Column { name, kind });
        for (row, line) in self.table.rows.iter_mut().zip(self.lines) {
            row.push(of(line).to_string());
        }
        self
    }

    /// Returns the finished table.
    #[must_use]
    pub fn table(self) -> Table {
        self.table
    }
}
