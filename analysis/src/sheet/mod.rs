//! A bench sheet: as typed, and checked once at the door.
//!
//! [`TypedSheet`] is what a form or a file brings in and what is stored.
//! [`Sheet::check`] turns it into a [`Sheet`], in which every box holds a
//! figure that can be what it claims to be; nothing after the door checks
//! again.

mod check;
mod fault;
mod noughts;
mod question;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::field::Field;
use crate::method::Method;

pub use crate::entry::{Entries, Entry, Row};
pub use fault::{BoxFault, Problem};
pub use question::{Asks, Question};

/// One box as typed: the figure's text and the unit chosen or written beside
/// it, both exactly as they came in.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cell {
    /// The figure as typed; may hold its unit too (`5.60 cm`).
    pub text: String,
    /// The unit beside the box; blank where none was given.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub unit: String,
}

/// The boxes of a sheet or of a row. Blank boxes may be absent.
pub type Cells = BTreeMap<Field, Cell>;

/// One row of the table of readings, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct TypedRow {
    /// The row's number as the group wrote it: `1`, `2`, `3a`.
    pub label: String,
    /// Its boxes.
    #[serde(default)]
    pub cells: Cells,
    /// Whether the group marked the row as anomalous and left it out.
    #[serde(default)]
    pub left_out: bool,
}

/// A sheet exactly as typed. This is what a revision stores.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TypedSheet {
    /// The method.
    pub method: Method,
    /// Boxes of the whole sheet.
    #[serde(default)]
    pub whole: Cells,
    /// The table of readings, in the order of the page. Rows with nothing in
    /// them are kept out.
    #[serde(default)]
    pub rows: Vec<TypedRow>,
}

/// A checked sheet: every figure is one that its box can hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The method.
    pub method: Method,
    /// Figures of the whole sheet.
    pub whole: Entries,
    /// The rows, in the order of the page.
    pub rows: Vec<Row>,
}

impl Sheet {
    /// Reads every box of a typed sheet.
    ///
    /// # Errors
    /// All that is wrong, in the order of the page: text that is no figure, a
    /// unit that does not fit, a length that is nought or negative, a count
    /// that is not whole, a last number called that is not above the first.
    pub fn check(typed: &TypedSheet) -> Result<Self, Vec<Problem>> {
        check::sheet(typed)
    }

    /// The expected speed (m/s) in its apparatus where a row is set to so much
    /// (a frequency in Hz); `None` where too little about it was recorded.
    #[must_use]
    pub fn expected_speed(&self, set: f64) -> Option<f64> {
        self.method.model().expected_speed(&self.whole, set)
    }

    /// What is odd but possible: kept as it is, and asked about beside the
    /// box.
    #[must_use]
    pub fn questions(&self) -> Vec<Question> {
        question::questions(self)
    }
}
