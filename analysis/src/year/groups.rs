//! The groups of one lesson, compared as laboratories are: a group's rows are
//! its results.

use super::{Year, YearSheet};
use crate::stats::consistency::{mandel_h, mandel_h_critical, mandel_k, mandel_k_critical_unequal};

/// How one group stands among those of its lesson.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct GroupPlace {
    /// Mandel's h: how far the mean of its rows is from the others'. `None`
    /// with fewer than three groups of two rows.
    pub h: Option<f64>,
    /// Mandel's k: how its rows scatter, against those of all.
    pub k: Option<f64>,
    /// Where k is marked for so many rows, at 1 %.
    pub k_line: Option<f64>,
}

/// The groups of a lesson.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Groups {
    /// One for each of its sheets, in the order of the year.
    pub places: Vec<GroupPlace>,
    /// Where h is marked, at 1 %.
    pub h_line: Option<f64>,
}

/// The chance at which h and k are marked: where ISO 5725-2 speaks of an
/// outlier.
const OUTLIER: f64 = 0.01;

/// Compares the groups of a lesson, on ln(v/expected v) of their rows. Those
/// with fewer than two rows, and those with a confirmed slip in their
/// readings, have no place.
#[must_use]
pub fn compare(year: &Year, lesson: usize) -> Groups {
    let sheets = year.sheets.iter().filter(|sheet| sheet.lesson == lesson);
    let sheets: Vec<&YearSheet> = sheets.collect();
    let mut groups = Groups {
        places: vec![GroupPlace::default(); sheets.len()],
        h_line: None,
    };
    let is_compared = |sheet: &YearSheet| !sheet.is_slipped && sheet.judgement.rows.len() > 1;
    let among: Vec<usize> = (0..sheets.len())
        .filter(|at| is_compared(sheets[*at]))
        .collect();
    let cells = among.iter().map(|at| {
        let rows = sheets[*at].judgement.rows.iter();
        rows.map(|row| row.level).collect::<Vec<f64>>()
    });
    let cells: Vec<Vec<f64>> = cells.collect();
    let df: usize = cells.iter().map(|cell| cell.len() - 1).sum();
    groups.h_line = mandel_h_critical(cells.len(), OUTLIER);
    let (h, k) = (mandel_h(&cells), mandel_k(&cells));
    for (index, at) in among.into_iter().enumerate() {
        groups.places[at] = GroupPlace {
            h: h.as_ref().map(|h| h[index]),
            k: k.as_ref().and_then(|k| k[index]),
            k_line: mandel_k_critical_unequal(cells[index].len() - 1, df, OUTLIER),
        };
    }
    groups
}
