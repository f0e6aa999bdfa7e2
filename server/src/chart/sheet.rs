//! The graph of one sheet.

use analysis::assess::Assessment;

use super::points::{Point, marked};
use super::rows::{ExpectedSpeed, Fit, Rows};
use super::{Graph, Kind};
use crate::words::counted;
use crate::words::graph::{NO_ROW, do_not_belong, left_out};

/// f against 1/λ for the rows of a sheet, with the best fit through the
/// origin and, where it is known, the expected curve.
///
/// `id` begins the ids of the graph's elements; `expected` gives the expected
/// speed (m/s) at a frequency (Hz).
///
/// # Example
/// ```
/// use analysis::{assess::assess, field::Field, method::Method};
/// use analysis::sheet::{Cell, Sheet, TypedRow, TypedSheet};
/// use server::chart::sheet_graph;
/// let cell = |text: &str, unit: &str| Cell { text: text.into(), unit: unit.into() };
/// let row = TypedRow {
///     label: "1".into(),
///     cells: [
///         (Field::Dial, cell("30", "")),
///         (Field::Length, cell("1.20", "m")),
///         (Field::LengthLoops, cell("3", "")),
///     ].into(),
///     left_out: false,
/// };
/// let typed = TypedSheet { method: Method::StringLoops, whole: [].into(), rows: vec![row] };
/// let sheet = Sheet::check(&typed).expect("readable");
/// let graph = sheet_graph("graph", "Bench 4", &assess(&sheet), None);
/// assert!(graph.to_string().contains("gradient 24.0 m/s"));
/// ```
#[must_use]
pub fn sheet_graph(
    id: &str,
    title: &str,
    sheet: &Assessment,
    expected: Option<ExpectedSpeed<'_>>,
) -> Graph {
    let points: Vec<_> = sheet.rows.iter().filter_map(Point::of_row).collect();
    let fit = sheet.through_origin.as_ref().map(|line| Fit {
        name: if line.df == 0 {
            "through one row"
        } else {
            "best fit"
        },
        gradient: line.slope.value,
    });
    let rows = Rows {
        of: counted(points.len(), "row", "rows"),
        apart: apart(&points),
        points,
        fit,
        expected,
    };
    rows.graph(id, title, NO_ROW)
}

fn apart(points: &[Point]) -> Vec<String> {
    let rows = |kind| -> Vec<&str> { marked(points, kind).map(|p| p.row.as_str()).collect() };
    let ringed = do_not_belong("row", "rows", &rows(Kind::Ringed), "the others");
    [ringed, left_out(&rows(Kind::LeftOut))]
        .into_iter()
        .flatten()
        .collect()
}
