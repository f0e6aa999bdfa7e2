//! The comparison of a round: a line for all sheets, for each marker as first
//! and as second, and for each point.

use analysis::interval::Interval;
use analysis::moderation::comparison::{Agreement, Coefficients};

use crate::table::{Columns, Table};

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
    let table = Table::of(lines)
        .text("about", |line| line.about.word())
        .text("name", |line| &line.name)
        .figure("sheets", |line| line.agreement.n)
        .number("mean_difference", |l| Some(l.agreement.mean.value))
        .numbers(["mean_difference_low", "mean_difference_high"], |line| {
            line.agreement.mean.interval95.map(ends)
        })
        .number("mean_size", |line| Some(line.agreement.mean_absolute))
        .number("sd", |line| line.agreement.sd)
        .number("lower_limit", |l| Some(l.agreement.limits?.lower.value))
        .numbers(["lower_limit_low", "lower_limit_high"], |line| {
            line.agreement.limits?.lower.interval95.map(ends)
        })
        .number("upper_limit", |l| Some(l.agreement.limits?.upper.value))
        .numbers(["upper_limit_low", "upper_limit_high"], |line| {
            line.agreement.limits?.upper.interval95.map(ends)
        })
        .figure("same", |line| line.agreement.exact.count)
        .numbers(["same_low", "same_high"], |line| {
            line.agreement.exact.interval95.map(ends)
        });
    within(table)
        .text("says", |line| line.says.join(" "))
        .table()
}

fn within<'t, 'a>(table: Columns<'t, Line<'a>>) -> Columns<'t, Line<'a>> {
    table
        .figure("tolerance", |line| line.agreement.tolerance)
        .figure("within", |line| line.agreement.within.count)
        .numbers(["within_low", "within_high"], |line| {
            line.agreement.within.interval95.map(ends)
        })
        .figure("largest", |line| {
            format!("{:.0}", line.agreement.largest.difference)
        })
        .text("largest_sheet", |line| &line.largest_sheet)
        .number("weighted_kappa", |l| Some(l.coefficients.kappa?.value))
        .numbers(["weighted_kappa_low", "weighted_kappa_high"], |line| {
            line.coefficients.kappa?.interval95.map(ends)
        })
        .number("icc", |line| Some(line.coefficients.icc?.value))
        .numbers(["icc_low", "icc_high"], |line| {
            line.coefficients.icc?.interval95.map(ends)
        })
        .number("part", |line| line.part)
        .text("colleagues", |line| line.colleagues.join("; "))
}

fn ends(interval: Interval) -> [f64; 2] {
    [interval.low, interval.high]
}
