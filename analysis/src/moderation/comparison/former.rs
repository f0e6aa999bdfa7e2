//! Verdicts that records of closed rounds hold, and that no sample comes to
//! any more.

use serde::{Deserialize, Serialize};

/// One thing that a line of figures said.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Former {
    /// Marks changed places between the points of a sheet, which its totals
    /// hide.
    Moved {
        /// So many marks.
        marks: i64,
        /// On so many sheets.
        sheets: usize,
    },
    /// The first marker kept marks nearer to the middle than the second.
    FirstBunches {
        /// Slope of the major axis, second over first.
        slope: f64,
    },
    /// The second marker did.
    SecondBunches {
        /// The slope.
        slope: f64,
    },
    /// The differences changed along the order of marking.
    Drifts {
        /// In marks from one sheet to the next; above 0 where the second
        /// marker gave ever more beside the first.
        per_sheet: f64,
        /// Mean difference of the last third of the sheets less that of the
        /// first, in marks.
        last_less_first_third: f64,
    },
}
