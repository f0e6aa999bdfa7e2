//! Sheets with next to nothing on them.

use server::chart::{class_graph, sheet_graph};

use super::{row, sheet, sheet_at};

#[test]
fn no_points_give_a_sentence() {
    let mut unfinished = row("1", (42.0, 10.0));
    unfinished.reciprocal = None;
    for sheet in [sheet(Vec::new()), sheet(vec![unfinished])] {
        let graph = super::graph(&sheet);
        assert_eq!(
            graph.to_string(),
            "<p>No row has both f and 1/λ, so there is no graph yet.</p>"
        );
        assert!(graph.points.is_none());
    }
    let class = class_graph("g", "9B", &[], None, None).to_string();
    assert!(class.starts_with("<p>No group has"), "{class}");
}

#[test]
fn one_point_gives_a_line_that_does_not_boast_of_a_fit() {
    let graph = super::graph(&sheet_at(&[(42.0, 10.0)]));
    assert!(
        graph
            .description
            .starts_with("f against 1/λ for 1 row at 10 Hz;")
    );
    let text = graph.to_string();
    assert!(text.contains("through one row"), "{text}");
    assert!(!text.contains("best fit"), "{text}");
}

#[test]
fn rows_all_the_same_are_drawn() {
    let graph = super::graph(&sheet_at(&[(42.0, 10.0); 5]));
    assert_eq!(graph.drawing.unwrap().marks.len(), 5);
}

#[test]
fn what_is_no_number_is_not_drawn() {
    let points = [
        (f64::NAN, 10.0),
        (42.0, f64::INFINITY),
        (0.0, 0.0),
        (-42.0, 10.0),
        (42.0, 10.0),
    ];
    let graph = sheet_graph(
        "g",
        "Bench 4",
        &sheet_at(&points),
        Some(&|_| Some(f64::NAN)),
    );
    assert_eq!(graph.points.as_ref().unwrap().height(), 1);
    let text = graph.to_string();
    assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
}

#[test]
fn enormous_and_tiny_values_have_readable_axes() {
    let graph = super::graph(&sheet_at(&[(1e12, 2e-5), (2e12, 4e-5)]));
    let text = graph.to_string();
    assert!(text.contains("10⁻⁶ Hz"), "{text}");
    assert!(text.contains("10¹² m⁻¹"), "{text}");
    assert!(text.contains("gradient 2.00 × 10⁻¹⁷ m/s"), "{text}");
}
