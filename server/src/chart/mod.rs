//! The graph of f against 1/λ, for a sheet and for a class; the differences of
//! two markers.
//!
//! [`sheet_graph`] and [`class_graph`] work out where everything goes; the
//! template draws it. The [`Graph`] they make can be written straight into a
//! page (`{{ graph }}`), and its [`Graph::points_table`] too.
//!
//! Nothing is told by colour alone: points that stand apart have another
//! shape and a name beside them, the expected curve is dashed, lines are
//! named where they run. Nothing is fitted here: gradients come from the
//! `analysis` crate.
//!
//! # Simplifications
//! Only points with f and 1/λ above 0 are drawn. One so far out that the
//! others would be squeezed into a corner is an arrow at the edge.

mod class;
pub mod curve;
pub mod difference;
mod draw;
pub mod frame;
pub mod label;
mod points;
pub mod scale;
mod sheet;
pub mod words;
pub mod year;

use askama::Template;
use askama::filters::HtmlSafe;

pub use class::{GroupPoints, class_graph};
pub use curve::ExpectedSpeed;
pub use draw::{AxisLabel, Curve, Drawing, Mark};
pub use points::Kind;
pub use sheet::sheet_graph;

/// A graph with its text alternative, ready for a page.
#[derive(Clone, Debug, Template)]
#[template(path = "chart/graph.html")]
pub struct Graph {
    /// Begins the ids of its elements; must be its own on the page.
    pub id: String,
    /// What the graph is of.
    pub title: String,
    /// What it shows, for those who cannot see it; where there is nothing to
    /// draw, why.
    pub description: String,
    /// What its marks mean, one sentence each.
    pub key: Vec<&'static str>,
    /// What is drawn; `None` where no point can be.
    pub drawing: Option<Drawing>,
    /// The points, for a table beside it.
    pub rows: Vec<TableRow>,
}

/// A point of a graph, in the units of its axes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableRow {
    /// Which row it is, and of which group.
    pub name: String,
    /// 1/λ.
    pub along: String,
    /// f.
    pub up: String,
    /// What sets it apart; blank for most.
    pub remark: &'static str,
}

/// The points of a graph as a table that can be opened.
#[derive(Clone, Debug, Template)]
#[template(path = "chart/points_table.html")]
pub struct PointsTable<'a> {
    /// What the graph is of.
    pub title: &'a str,
    /// The unit of 1/λ.
    pub along_unit: &'a str,
    /// The unit of f.
    pub up_unit: &'a str,
    /// The points.
    pub rows: &'a [TableRow],
}

// Both are whole templates, which have escaped what they were given.
impl HtmlSafe for Graph {}
impl HtmlSafe for PointsTable<'_> {}

impl Graph {
    /// Its points as a table; `None` where there are none.
    #[must_use]
    pub fn points_table(&self) -> Option<PointsTable<'_>> {
        let drawing = self.drawing.as_ref()?;
        Some(PointsTable {
            title: &self.title,
            along_unit: &drawing.along_unit,
            up_unit: &drawing.up_unit,
            rows: &self.rows,
        })
    }
}
