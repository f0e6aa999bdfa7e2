//! Graphs: f against 1/λ, for a sheet and for a class; the differences of two
//! markers; what kits, slips and classes of a year come to, and a kit's sheets
//! in date order.
//!
//! [`sheet_graph`], [`class_graph`], [`difference_plot`], [`lanes()`] and
//! [`dates()`] work out where everything goes; one template draws it. The
//! [`Graph`] they make can be written straight into a page (`{{ graph }}`).
//!
//! Nothing is told by colour alone: points that stand apart have another
//! shape and a name beside them, the expected curve is dashed, lines are
//! named where they run, what stands for the year before or is left aside is
//! an open circle. Nothing is fitted here: gradients come from the `analysis`
//! crate.
//!
//! # Simplifications
//! Only points with f and 1/λ above 0 are drawn. One so far out that the
//! others would be squeezed into a corner is an arrow at the edge.

mod class;
pub mod dates;
pub mod difference;
pub mod drawing;
pub mod frame;
pub mod label;
pub mod lanes;
mod points;
mod rows;
pub mod scale;
mod sheet;

use askama::Template;
use askama::filters::HtmlSafe;

pub use class::{GroupPoints, class_graph};
pub use dates::dates;
pub use difference::difference_plot;
pub use drawing::{Drawing, Kind};
pub use lanes::lanes;
pub use rows::ExpectedSpeed;
pub use sheet::sheet_graph;

use crate::table::PageTable;

/// A graph with its text alternative, ready for a page.
#[derive(Clone, Debug, Template)]
#[template(path = "chart/graph.html")]
pub struct Graph {
    /// Begins the ids of its elements; must be its own on the page.
    pub id: String,
    pub title: String,
    /// What it shows, for those who cannot see it; where there is nothing to
    /// draw, why.
    pub description: String,
    /// What its marks mean, one sentence each.
    pub key: Vec<String>,
    /// What is drawn; `None` where no point can be.
    pub drawing: Option<Drawing>,
    /// The points, for a table beside it; `None` where the page has one.
    pub points: Option<PageTable>,
}

// A whole template, which has escaped what it was given.
impl HtmlSafe for Graph {}
