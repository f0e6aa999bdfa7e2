//! A sheet as lines of text, for pages that show it without boxes.

use analysis::sheet::{Cell, Cells};

use super::words;
use crate::db::revision::Entry;

/// One filled box.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    pub(super) label: String,
    /// Figure and unit as typed.
    pub(super) text: String,
}

/// One box of two versions side by side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Pair {
    pub(super) label: String,
    /// What is stored; blank where nothing is.
    pub(super) stored: String,
    /// What was sent; blank where nothing was.
    pub(super) yours: String,
}

impl Pair {
    /// Whether the two differ.
    pub(super) fn differs(&self) -> bool {
        self.stored != self.yours
    }
}

/// Every filled box of a sheet, in the order of storing.
pub(super) fn lines(entry: &Entry) -> Vec<Line> {
    let mut all = Vec::new();
    if !entry.kit.trim().is_empty() {
        all.push(Line {
            label: "Kit".to_owned(),
            text: entry.kit.clone(),
        });
    }
    push(&mut all, "", &entry.sheet.whole);
    for row in &entry.sheet.rows {
        push(&mut all, &format!("Row {}: ", row.label), &row.cells);
        if row.left_out {
            all.push(Line {
                label: format!("Row {}: left out as an anomaly", row.label),
                text: "yes".to_owned(),
            });
        }
    }
    all
}

fn push(all: &mut Vec<Line>, row: &str, cells: &Cells) {
    for (field, Cell { text, unit }) in cells {
        let text = if unit.is_empty() {
            text.clone()
        } else {
            format!("{text} {unit}")
        };
        all.push(Line {
            label: format!("{row}{}", words::heading(*field)),
            text,
        });
    }
}

/// Two versions side by side: the stored one's boxes, then those that only
/// the other has.
pub(super) fn side_by_side(stored: &Entry, yours: &Entry) -> Vec<Pair> {
    let mut yours = lines(yours);
    let mut pairs: Vec<Pair> = lines(stored)
        .into_iter()
        .map(|Line { label, text }| {
            let at = yours.iter().position(|y| y.label == label);
            let other = at.map(|i| yours.remove(i).text).unwrap_or_default();
            Pair {
                label,
                stored: text,
                yours: other,
            }
        })
        .collect();
    pairs.extend(yours.into_iter().map(|Line { label, text }| Pair {
        label,
        stored: String::new(),
        yours: text,
    }));
    pairs
}
