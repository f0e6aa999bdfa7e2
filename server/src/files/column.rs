//! The columns of a readings file.

use std::borrow::Cow;

use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::Answer;

use super::fault::Fault;
use crate::words::file;

/// The longest label or figure, in characters.
pub(super) const LONGEST_CELL: usize = 200;

/// The longest text in a group's own words, in characters: far more than a
/// bench sheet has room for.
const LONGEST_WORDS: usize = 10_000;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// The class set.
    Class,
    /// The group's label.
    Group,
    /// Code of the method.
    Method,
    /// What is written on the apparatus.
    Kit,
    /// Whose readings they are, where they are not the group's own.
    Shared,
    /// The row's number as typed.
    Row,
    /// Whether the group left the row out.
    LeftOut,
    /// Of a method that is not built yet.
    Lengths,
    /// A figure as typed.
    Figure(Field),
    /// The unit beside a figure.
    Unit(Field),
    /// What the group wrote in its own words.
    Words(Answer),
    /// Spreadsheets write columns without a name where a cell beside the
    /// table was once touched. Nothing may stand in them.
    Nameless,
}

impl Column {
    fn named(name: &str) -> Option<Self> {
        Some(match name {
            "class" => Self::Class,
            "group" => Self::Group,
            "method" => Self::Method,
            "kit" => Self::Kit,
            "shared" => Self::Shared,
            "row" => Self::Row,
            "left_out" => Self::LeftOut,
            "lengths" => Self::Lengths,
            "" => Self::Nameless,
            _ => {
                if let Some(figure) = name.strip_suffix("_unit") {
                    Self::Unit(Field::named(figure).filter(|f| f.asks_unit())?)
                } else if let Some(answer) = name.strip_suffix("_text") {
                    Self::Words(Answer::from_code(answer)?)
                } else {
                    Self::Figure(Field::named(name)?)
                }
            }
        })
    }

    /// Returns all columns that a sheet of this method has, in the order of
    /// the work.
    pub(super) fn of(method: Method) -> Vec<Self> {
        let mut columns = vec![
            Self::Class,
            Self::Group,
            Self::Method,
            Self::Kit,
            Self::Shared,
            Self::Row,
        ];
        for field in method.fields() {
            columns.push(Self::Figure(field));
            if field.asks_unit() {
                columns.push(Self::Unit(field));
            }
        }
        columns.extend(Answer::ALL.map(Self::Words));
        columns.push(Self::LeftOut);
        columns
    }

    /// Returns the longest text that a cell of it may hold, in characters.
    pub(super) fn longest(self) -> usize {
        match self {
            Self::Words(_) => LONGEST_WORDS,
            _ => LONGEST_CELL,
        }
    }

    /// Returns its name in the header line.
    pub(super) fn name(self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Class => "class",
            Self::Group => "group",
            Self::Method => "method",
            Self::Kit => "kit",
            Self::Shared => "shared",
            Self::Row => "row",
            Self::LeftOut => "left_out",
            Self::Lengths => "lengths",
            Self::Nameless => "(no name)",
            Self::Figure(field) => field.name(),
            Self::Unit(field) => return Cow::Owned(format!("{}_unit", field.name())),
            Self::Words(answer) => return Cow::Owned(format!("{}_text", answer.code())),
        })
    }
}

/// Reads the names of a header line.
pub(super) fn columns<'n>(
    line: u64,
    names: impl Iterator<Item = &'n str>,
) -> Result<Vec<Column>, Fault> {
    let mut columns = Vec::new();
    for name in names.map(str::trim) {
        let column = Column::named(name)
            .ok_or_else(|| Fault::in_column(line, &file::shortened(name), file::NO_COLUMN))?;
        if column != Column::Nameless && columns.contains(&column) {
            return Err(Fault::in_column(line, name, file::COLUMN_TWICE));
        }
        columns.push(column);
    }
    for needed in [Column::Group, Column::Method, Column::Row] {
        if !columns.contains(&needed) {
            return Err(Fault::in_column(line, &needed.name(), file::COLUMN_MISSING));
        }
    }
    Ok(columns)
}
