//! The graph of f against 1/λ, and the difference plot of two markers: geometry,
//! words, SVG.

mod any_points;
mod class;
mod degenerate;
mod difference;
mod labels;
mod scale;
mod sheet;
mod svg;

use analysis::assess::{Assessment, RowResult, Standing};
use analysis::stats::line;
use server::chart::{Graph, sheet_graph};

/// A row at (1/λ in 1/m, f in Hz) that belongs with the others.
fn row(label: &str, (along, up): (f64, f64)) -> RowResult {
    RowResult {
        label: label.to_owned(),
        left_out: false,
        frequency: Some(up),
        wavelength: Some(along.recip()),
        reciprocal: Some(along),
        speed: Some(up / along),
        expected_speed: None,
        wavelength_resolution: 0.001,
        repeats: None,
        standing: Standing::Belongs,
    }
}

/// A sheet of these rows, with their line and no working.
fn sheet(rows: Vec<RowResult>) -> Assessment {
    let kept = rows.iter().filter(|row| !row.left_out);
    let points: Vec<_> = kept.filter_map(RowResult::point).collect();
    Assessment {
        magnification: None,
        rows,
        mean_speed: None,
        through_origin: line::through_origin(&points),
        free_fit: None,
        speed: None,
        speed_without_anomalies: None,
        own_answer: None,
        flags: Vec::new(),
        comparisons: Vec::new(),
    }
}

/// A sheet of rows 1, 2, 3, ... at these points.
fn sheet_at(points: &[(f64, f64)]) -> Assessment {
    let numbered = points.iter().zip(1..);
    sheet(
        numbered
            .map(|(point, number)| row(&format!("{number}"), *point))
            .collect(),
    )
}

/// Ripples of 24 cm/s at six frequencies.
fn ripples() -> Assessment {
    sheet_at(&[
        (42.0, 10.0),
        (63.0, 15.0),
        (84.0, 20.0),
        (103.0, 25.0),
        (126.0, 30.0),
        (165.0, 40.0),
    ])
}

/// The graph of a sheet.
fn graph(sheet: &Assessment) -> Graph {
    sheet_graph("g", "Bench 4", sheet, None)
}

/// The same with the curve of what the tank should give.
fn with_curve(sheet: &Assessment) -> Graph {
    sheet_graph("g", "Bench 4", sheet, Some(&expected))
}

/// What the tank should give: slower ripples at low frequencies.
fn expected(frequency: f64) -> Option<f64> {
    Some(0.20 + 0.0015 * frequency)
}
