//! What is wrong with a readings file, and where.

use std::fmt;
use std::io;

/// Something in the file that cannot be read, with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The line of the file, counted from 1 as a text editor counts.
    pub line: u64,
    /// The name of the column; `None` where the whole line is at fault.
    pub column: Option<String>,
    /// One sentence: what is wrong, and what to do about it.
    pub reason: String,
}

impl Fault {
    /// In one cell of a line.
    #[must_use]
    pub fn in_column(line: u64, column: &str, reason: impl Into<String>) -> Self {
        Self {
            line,
            column: Some(column.to_owned()),
            reason: reason.into(),
        }
    }

    pub(super) fn in_line(line: u64, reason: impl Into<String>) -> Self {
        Self {
            line,
            column: None,
            reason: reason.into(),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}", self.line)?;
        if let Some(column) = &self.column {
            write!(f, ", column {column}")?;
        }
        write!(f, ": {}", self.reason)
    }
}

/// Why readings could not be read.
#[derive(Debug, thiserror::Error)]
pub enum ReadError {
    /// The file says something that cannot be.
    #[error("{0}")]
    Fault(#[from] Fault),
    /// The file could not be read at all.
    #[error("cannot be read: {0}")]
    Io(#[from] io::Error),
}

impl std::error::Error for Fault {}

impl ReadError {
    /// As a fault of the file; `line` is where it was being read.
    #[must_use]
    pub fn into_fault(self, line: u64) -> Fault {
        match self {
            Self::Fault(fault) => fault,
            Self::Io(error) => Fault::in_line(line, format!("cannot be read: {error}.")),
        }
    }
}
