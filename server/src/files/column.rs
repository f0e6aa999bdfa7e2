//! The columns of a readings file.

use std::borrow::Cow;

use analysis::field::Field;

use super::fault::{Fault, quoted};

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Column {
    Class,
    Group,
    Method,
    Kit,
    Shared,
    Row,
    LeftOut,
    /// Of a method that is not built yet.
    Lengths,
    Figure(Field),
    Unit(Field),
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
            _ => match name.strip_suffix("_unit") {
                Some(figure) => Self::Unit(Field::named(figure).filter(|f| f.asks_unit())?),
                None => Self::Figure(Field::named(name)?),
            },
        })
    }

    /// Its name in the header line.
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
        let column = Column::named(name).ok_or_else(|| {
            let column = quoted(name);
            Fault::in_column(
                line,
                column.trim_matches(['“', '”']),
                "there is no column of this name in a readings file.",
            )
        })?;
        if column != Column::Nameless && columns.contains(&column) {
            return Err(Fault::in_column(line, name, "this column is there twice."));
        }
        columns.push(column);
    }
    for needed in [Column::Group, Column::Method, Column::Row] {
        if !columns.contains(&needed) {
            return Err(Fault::in_column(
                line,
                &needed.name(),
                "this column must be there, and is not.",
            ));
        }
    }
    Ok(columns)
}
