//! The points that a graph shows, before they are placed.

use analysis::assess::{RowResult, Standing};

use super::frame::Frame;
use super::scale::drawable;
use super::{Mark, TableRow};
use crate::words::capitalised;

/// How a point is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A thin cross.
    Cross,
    /// A cross in a ring: a row that does not belong with the others.
    Ringed,
    /// A heavy cross: a row of a group that does not belong with its class.
    Apart,
    /// An open circle: a row that the group left out.
    LeftOut,
    /// An arrow to the right: beyond the end of the axis of 1/λ.
    BeyondRight,
    /// An arrow upwards: beyond the end of the axis of f.
    BeyondTop,
    /// An arrow to the corner: beyond both ends.
    BeyondCorner,
}

/// A point that can be drawn.
#[derive(Clone, Debug)]
pub(super) struct Point {
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
    /// A row as its group's graph shows it; `None` where it has no place.
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
            name,
            label,
            at,
            resolution: row.wavelength_resolution,
            kind,
        })
    }

    /// How it is marked on this paper.
    pub(super) fn kind_on(&self, frame: &Frame) -> Kind {
        let (x, y) = self.at;
        match (x > frame.along.end(), y > frame.up.end()) {
            (false, false) => self.kind,
            (true, false) => Kind::BeyondRight,
            (false, true) => Kind::BeyondTop,
            (true, true) => Kind::BeyondCorner,
        }
    }
}

/// The points as a table in the units of the axes.
pub(super) fn table(points: &[Point], frame: &Frame) -> Vec<TableRow> {
    points
        .iter()
        .map(|point| TableRow {
            name: capitalised(&point.name),
            along: frame.along.figure(point.at.0),
            up: frame.up.figure(point.at.1),
            remark: match point.kind {
                Kind::LeftOut => "left out",
                Kind::Ringed => "does not belong with the others",
                Kind::Apart => "group does not belong with the class",
                _ => "",
            },
        })
        .collect()
}

/// A sentence for each kind of mark that needs one.
pub(super) fn key(marks: &[Mark]) -> Vec<&'static str> {
    let has = |kinds: &[Kind]| marks.iter().any(|mark| kinds.contains(&mark.kind));
    let beyond = [Kind::BeyondRight, Kind::BeyondTop, Kind::BeyondCorner];
    let sentences = [
        (
            has(&[Kind::Ringed]),
            "A ring marks a row that does not belong with the others.",
        ),
        (
            has(&[Kind::Apart]),
            "Heavy crosses with a name are a group that does not belong with the class.",
        ),
        (
            has(&[Kind::LeftOut]),
            "An open circle is a row that the group left out.",
        ),
        (
            has(&beyond),
            "An arrow stands for a row beyond the edge of the graph.",
        ),
        (
            marks.iter().any(|mark| mark.bar.is_some()),
            "Bars show how finely λ could be read, one standard uncertainty each way; where there is \
             none, it would be hidden by the mark.",
        ),
    ];
    sentences
        .into_iter()
        .filter_map(|(needed, sentence)| needed.then_some(sentence))
        .collect()
}
