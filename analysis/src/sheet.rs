//! A bench sheet: as typed, and checked once at the door.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::field::Field;
use crate::method::Method;

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

/// What is wrong with one box, in words for the person who typed it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Index into [`TypedSheet::rows`]; `None` for a box of the whole sheet.
    pub row: Option<usize>,
    /// Which box.
    pub field: Field,
    /// Whether the unit beside the box is at fault, not the figure.
    pub in_unit: bool,
    /// One sentence: what is wrong and what to type instead.
    pub reason: String,
}
