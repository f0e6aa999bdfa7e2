//! The comparison of a round: a line for all sheets, for each marker as first
//! and as second, and for each point.

use analysis::moderation::comparison::{Agreement, Coefficients, Estimated};

use crate::table::Table;

/// Whose figures a line has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// All sheets.
    Whole,
    /// Those of a first marker.
    FirstMarker,
    /// Those of a second marker.
    SecondMarker,
    /// A point of all sheets.
    Point,
}

impl About {
    fn word(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::FirstMarker => "first_marker",
            Self::SecondMarker => "second_marker",
            Self::Point => "point",
        }
    }
}

/// One line.
#[derive(Clone, Debug)]
pub struct Line<'a> {
    /// What it is about.
    pub about: About,
    /// Of the marker or the point; blank for the whole.
    pub name: String,
    /// Its figures.
    pub agreement: &'a Agreement,
    /// Of the whole: its coefficients.
    pub coefficients: Coefficients,
    /// The sheet with the largest difference; blank where it is not told.
    pub largest_sheet: String,
    /// Of a point: its part of all marks in dispute, 0 to 1.
    pub part: Option<f64>,
    /// Of a marker: who gave the other marks.
    pub colleagues: Vec<String>,
    /// What they come to, in sentences.
    pub says: Vec<String>,
}

/// Makes the table of a comparison.
#[must_use]
pub fn table(lines: &[Line<'_>]) -> Table {
    Table::of(lines)
        .text("about", |line| line.about.word())
        .text("name", |line| &line.name)
        .figure("sheets", |line| line.agreement.n)
        .estimate("mean_difference", |l| Some(known(l.agreement.mean)))
        .number("mean_size", |line| Some(line.agreement.mean_absolute))
        .number("sd", |line| line.agreement.sd)
        .estimate("lower_limit", |l| Some(known(l.agreement.limits?.lower)))
        .estimate("upper_limit", |l| Some(known(l.agreement.limits?.upper)))
        .figure("same", |line| line.agreement.exact.count)
        .ends("same", |line| line.agreement.exact.interval95)
        .figure("tolerance", |line| line.agreement.tolerance)
        .figure("within", |line| line.agreement.within.count)
        .ends("within", |line| line.agreement.within.interval95)
        .figure("largest", |line| {
            format!("{:.0}", line.agreement.largest.difference)
        })
        .text("largest_sheet", |line| &line.largest_sheet)
        .estimate("weighted_kappa", |l| l.coefficients.kappa.map(known))
        .estimate("icc", |line| line.coefficients.icc.map(known))
        .number("part", |line| line.part)
        .text("colleagues", |line| line.colleagues.join("; "))
        .text("says", |line| line.says.join(" "))
        .table()
}

/// Returns a figure and the ends of its interval: NaN where it has none.
fn known(figure: Estimated) -> [f64; 3] {
    let interval = figure.interval95;
    let [low, high] = interval.map_or([f64::NAN; 2], |ends| [ends.low, ends.high]);
    [figure.value, low, high]
}
