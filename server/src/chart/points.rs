//! The points that a graph of f against 1/λ shows, before they are placed.

use analysis::assess::{RowResult, Standing};

use super::Kind;
use super::drawing::{Mark, needed};
use super::frame::Frame;
use super::rows::quantities;
use super::scale::drawable;
use crate::table::{PageTable, Table};
use crate::words::{capitalised, graph};

/// A point that can be drawn.
#[derive(Clone, Debug)]
pub(super) struct Point {
    /// The label of its row.
    pub(super) row: String,
    /// Its name in the table.
    pub(super) name: String,
    /// Its name in the graph, where it stands apart.
    pub(super) label: Option<String>,
    /// 1/λ in 1/m and f in Hz.
    pub(super) at: (f64, f64),
    /// The standard uncertainty of 1/λ, as a share of it.
    pub(super) resolution: f64,
    /// How it is marked where it is on the paper.
    pub(super) kind: Kind,
}

impl Point {
    /// Makes the point of a row as its group's graph shows it. Returns `None`
    /// where it has no place.
    pub(super) fn of_row(row: &RowResult) -> Option<Self> {
        let at = row.point().filter(|(x, y)| drawable(*x) && drawable(*y))?;
        let name = format!("row {}", row.label);
        let (kind, label) = match row.standing {
            _ if row.left_out => (Kind::LeftOut, Some(name.clone())),
            Standing::Anomalous => (Kind::Ringed, Some(name.clone())),
            Standing::Mentioned => (Kind::Cross, Some(name.clone())),
            Standing::Belongs => (Kind::Cross, None),
        };
        Some(Self {
            row: row.label.clone(),
            name,
            label,
            at,
            resolution: row.wavelength_resolution,
            kind,
        })
    }
}

/// Returns the points that are marked so.
pub(super) fn marked(points: &[Point], kind: Kind) -> impl Iterator<Item = &Point> {
    points.iter().filter(move |point| point.kind == kind)
}

/// Returns the points as a table in the units of the axes.
pub(super) fn table(title: &str, points: &[Point], frame: &Frame) -> PageTable {
    let [along, up] = quantities(frame);
    Table::of(points)
        .text("Row", |point| capitalised(&point.name))
        .figure("1/λ", |point| frame.along.scale.figure(point.at.0))
        .unit(format!("/ {}", along.unit))
        .figure("f", |point| frame.up.scale.figure(point.at.1))
        .unit(format!("/ {}", up.unit))
        .text("Remark", |point| match point.kind {
            Kind::LeftOut => "left out",
            Kind::Ringed => graph::RINGED,
            Kind::Apart => graph::APART,
            _ => "",
        })
        .on_page("", format!("{title}: the points of the graph"))
}

/// Returns a sentence for each kind of mark that needs one.
pub(super) fn key(marks: &[Mark]) -> Vec<String> {
    let has = |kinds: &[Kind]| marks.iter().any(|mark| kinds.contains(&mark.kind));
    let beyond = [Kind::BeyondRight, Kind::BeyondTop, Kind::BeyondCorner];
    needed(&[
        (has(&[Kind::Ringed]), graph::RING),
        (has(&[Kind::Apart]), graph::HEAVY_GROUP),
        (has(&[Kind::LeftOut]), graph::OPEN_ROW),
        (has(&beyond), graph::ARROW_ROW),
        (marks.iter().any(|mark| mark.bar.is_some()), graph::BARS),
    ])
}
