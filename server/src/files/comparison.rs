//! The comparison of a round: a line for all sheets, for each marker as first
//! and as second, and for each point.

use std::io::Write;

use analysis::interval::Interval;
use analysis::moderation::comparison::{Agreement, Coefficients, Estimated};

use super::cell;

/// The columns, in their order.
pub const COLUMNS: [&str; 32] = [
    "about",
    "name",
    "sheets",
    "mean_difference",
    "mean_difference_low",
    "mean_difference_high",
    "mean_size",
    "sd",
    "lower_limit",
    "lower_limit_low",
    "lower_limit_high",
    "upper_limit",
    "upper_limit_low",
    "upper_limit_high",
    "same",
    "same_low",
    "same_high",
    "tolerance",
    "within",
    "within_low",
    "within_high",
    "largest",
    "largest_sheet",
    "weighted_kappa",
    "weighted_kappa_low",
    "weighted_kappa_high",
    "icc",
    "icc_low",
    "icc_high",
    "part",
    "colleagues",
    "says",
];

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

/// Writes the comparison.
///
/// # Errors
/// When the output cannot be written.
pub fn write(out: impl Write, lines: &[Line<'_>]) -> csv::Result<()> {
    let mut out = csv::Writer::from_writer(out);
    out.write_record(COLUMNS)?;
    for line in lines {
        out.write_record(record(line))?;
    }
    Ok(out.flush()?)
}

fn record(line: &Line<'_>) -> Vec<String> {
    let found = line.agreement;
    let typed = |text: &str| cell::typed(text).into_owned();
    let mut record = vec![
        line.about.word().to_owned(),
        typed(&line.name),
        found.n.to_string(),
    ];
    record.extend(with_interval(Some(found.mean)));
    record.extend([
        cell::number(Some(found.mean_absolute)),
        cell::number(found.sd),
    ]);
    record.extend(with_interval(found.limits.map(|limits| limits.lower)));
    record.extend(with_interval(found.limits.map(|limits| limits.upper)));
    record.push(found.exact.count.to_string());
    record.extend(ends(found.exact.interval95));
    record.extend([found.tolerance.to_string(), found.within.count.to_string()]);
    record.extend(ends(found.within.interval95));
    record.extend([
        format!("{:.0}", found.largest.difference),
        typed(&line.largest_sheet),
    ]);
    record.extend(with_interval(line.coefficients.kappa));
    record.extend(with_interval(line.coefficients.icc));
    record.push(cell::number(line.part));
    record.extend([typed(&line.colleagues.join("; ")), line.says.join(" ")]);
    record
}

fn with_interval(estimate: Option<Estimated>) -> [String; 3] {
    let [low, high] = ends(estimate.and_then(|estimate| estimate.interval95));
    [
        cell::number(estimate.map(|estimate| estimate.value)),
        low,
        high,
    ]
}

fn ends(interval: Option<Interval>) -> [String; 2] {
    [
        cell::number(interval.map(|interval| interval.low)),
        cell::number(interval.map(|interval| interval.high)),
    ]
}
