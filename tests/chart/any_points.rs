//! Whatever is typed, the drawing is sound.

use analysis::assess::Standing;
use proptest::prelude::*;
use server::chart::frame::{BOTTOM, LEFT, RIGHT, TOP};
use server::chart::sheet_graph;

use super::{row, sheet};
use crate::support::Part;

/// Any positive number that a double holds.
fn any_positive() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => 0.1..200.0_f64,
        1 => (f64::MIN_POSITIVE.ln()..f64::MAX.ln()).prop_map(f64::exp),
        1 => Just(5e-324),
        1 => Just(f64::MAX),
    ]
}

/// Every number in the attributes that hold lengths.
fn lengths(svg: &str) -> Vec<(String, f64)> {
    let mut found = Vec::new();
    let svg = Part::page(svg);
    for name in ["x", "y", "cx", "cy", "points", "d"] {
        for shape in svg.all(&format!("[{name}]")) {
            let text = shape.attr(name);
            let absolute = text.split(['m', 'v', 'h', 'l']).next().unwrap();
            let numbers = absolute.split(|c: char| c.is_ascii_uppercase() || c == ',' || c == ' ');
            for number in numbers.filter(|number| !number.is_empty()) {
                found.push((text.to_owned(), number.parse().unwrap()));
            }
        }
    }
    found
}

proptest! {
    #[test]
    fn every_length_is_a_number_inside_the_view_box(
        points in proptest::collection::vec((any_positive(), any_positive()), 0..12),
        odd in 0..12_usize,
        resolution in prop_oneof![Just(f64::NAN), Just(0.0), any_positive()],
        speed in any_positive(),
    ) {
        let mut rows: Vec<_> = points.iter().map(|point| row("7", *point)).collect();
        if let Some(row) = rows.get_mut(odd) {
            row.standing = Standing::Anomalous;
            row.wavelength_resolution = resolution;
        }
        let graph = sheet_graph("g", "Bench 4", &sheet(rows), Some(&|_| Some(speed)));
        let svg = graph.to_string();
        prop_assert!(!svg.contains("NaN") && !svg.contains("inf"), "{}", svg);
        for (text, length) in lengths(&svg) {
            prop_assert!((0.0..=560.0).contains(&length), "{} in {}", length, text);
        }
        if let Some(drawing) = graph.drawing {
            for mark in drawing.marks {
                prop_assert!((LEFT..=RIGHT).contains(&mark.place.x));
                prop_assert!((TOP..=BOTTOM).contains(&mark.place.y));
            }
        }
    }
}
