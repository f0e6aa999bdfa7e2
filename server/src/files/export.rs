//! Readings as a file that [`readings`](super::readings) reads back to the
//! letter.

use analysis::field::Field;
use analysis::method::Method;
use analysis::sheet::{Cell, TypedRow};

use super::column::Column;
use crate::db::revision::Entry;
use crate::table::Table;

/// The row's number of a sheet that has no rows: its line needs one, and a
/// line with nothing in its row is read as no row.
const NO_ROW: &str = "1";

/// Makes the table of the sheets of one class and method, by label, with every
/// column that the method has.
pub fn table<'a>(
    class: &str,
    method: Method,
    sheets: impl IntoIterator<Item = (&'a str, &'a Entry)>,
) -> Table {
    let no_row = TypedRow {
        label: NO_ROW.to_owned(),
        ..TypedRow::default()
    };
    let mut lines = Vec::new();
    for (group, entry) in sheets {
        let rows = match entry.sheet.rows.as_slice() {
            [] => std::slice::from_ref(&no_row),
            rows => rows,
        };
        lines.extend(rows.iter().enumerate().map(|(at, row)| ExportedSheet {
            class,
            group,
            entry,
            row,
            is_first: at == 0,
        }));
    }
    let mut table = Table::of(&lines);
    for column in Column::of(method) {
        table = match column {
            Column::Row | Column::Figure(_) => table.figure(column.name(), |l| l.text(column)),
            _ => table.text(column.name(), |l| l.text(column)),
        };
    }
    table.table()
}

/// What stands on one line.
struct ExportedSheet<'a> {
    class: &'a str,
    group: &'a str,
    entry: &'a Entry,
    row: &'a TypedRow,
    /// The first line of a sheet has what the whole sheet has.
    is_first: bool,
}

impl<'a> ExportedSheet<'a> {
    fn text(&self, column: Column) -> &'a str {
        let once = |text: &'a str| if self.is_first { text } else { "" };
        match column {
            Column::Class => self.class,
            Column::Group => self.group,
            Column::Method => self.entry.sheet.method.code(),
            Column::Row => &self.row.label,
            Column::LeftOut if self.row.left_out => "yes",
            Column::Kit => once(&self.entry.kit),
            Column::Shared => once(&self.entry.shared),
            Column::Words(answer) => once(self.entry.answers.get(answer)),
            Column::Figure(field) => self.cell(field).map_or("", |cell| &cell.text),
            Column::Unit(field) => self.cell(field).map_or("", |cell| &cell.unit),
            Column::LeftOut | Column::Lengths | Column::Nameless => "",
        }
    }

    fn cell(&self, field: Field) -> Option<&'a Cell> {
        let whole = self.is_first.then_some(&self.entry.sheet.whole);
        let in_row = self.row.cells.get(&field);
        in_row.or_else(|| whole.and_then(|whole| whole.get(&field)))
    }
}
