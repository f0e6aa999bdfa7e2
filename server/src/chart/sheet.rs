//! The graph of one sheet.

use analysis::assess::Assessment;

use super::curve::ExpectedSpeed;
use super::draw::{Fit, draw};
use super::points::{Kind, Point, key, table};
use super::words::{do_not_belong, shortest, three_figures};
use super::{Graph, TableRow};
use crate::words::{counted, list};

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
    let drawing = draw(&points, fit, expected);
    let rows: Vec<TableRow> = drawing
        .as_ref()
        .map_or_else(Vec::new, |drawing| table(&points, &drawing.frame));
    Graph {
        id: id.to_owned(),
        title: title.to_owned(),
        description: if drawing.is_some() {
            description(&points, fit, expected.is_some())
        } else {
            "No row has both f and 1/λ, so there is no graph yet.".to_owned()
        },
        key: drawing.as_ref().map_or_else(Vec::new, |d| key(&d.marks)),
        drawing,
        rows,
    }
}

fn description(points: &[Point], fit: Option<Fit>, has_expected: bool) -> String {
    let named = |kind: Kind| -> Vec<&str> {
        let of_kind = points.iter().filter(|point| point.kind == kind);
        of_kind
            .map(|point| point.name.trim_start_matches("row "))
            .collect()
    };
    let mut sentences = vec![over(points, &counted(points.len(), "row", "rows"), fit)];
    sentences.extend(do_not_belong(
        "row",
        "rows",
        &named(Kind::Ringed),
        "the others",
    ));
    if let Some(rows) = list("row", "rows", &named(Kind::LeftOut)) {
        sentences.push(format!("The group left out {rows}."));
    }
    if has_expected {
        sentences.push("A dashed line shows what was expected.".to_owned());
    }
    sentences.join(" ")
}

/// The first sentence of a description: what is drawn, from where to where,
/// and its gradient.
pub(super) fn over(points: &[Point], what: &str, fit: Option<Fit>) -> String {
    let frequencies = points.iter().map(|point| point.at.1);
    let least = frequencies.clone().fold(f64::INFINITY, f64::min);
    let most = frequencies.fold(0.0, f64::max);
    let (least, most) = (shortest(least), shortest(most));
    let range = if least == most {
        format!("at {most} Hz")
    } else {
        format!("from {least} Hz to {most} Hz")
    };
    let line = fit.map_or_else(String::new, |fit| {
        let gradient = three_figures(fit.gradient);
        format!("; the line through the origin has gradient {gradient} m/s")
    });
    format!("f against 1/λ for {what} {range}{line}.")
}
