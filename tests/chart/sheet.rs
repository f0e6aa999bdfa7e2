//! The graph of one sheet.

use analysis::assess::Standing;
use server::chart::frame::{BOTTOM, LEFT, RIGHT, TOP};
use server::chart::{Graph, Kind};

use super::{expected, ripples, row, sheet, sheet_at};

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 0.06
}

#[test]
fn a_point_lands_where_the_graph_paper_says() {
    // Axes to 180 per metre and to 50 Hz.
    let graph = super::graph(&ripples());
    let drawing = graph.drawing.unwrap();
    let place = drawing.marks[4].place;
    assert!(
        close(place.x, LEFT + 126.0 / 180.0 * (RIGHT - LEFT)),
        "{place:?}"
    );
    assert!(
        close(place.y, BOTTOM - 30.0 / 50.0 * (BOTTOM - TOP)),
        "{place:?}"
    );
}

#[test]
fn the_best_fit_runs_from_the_origin_with_its_gradient() {
    let sheet = ripples();
    let gradient = sheet.through_origin.unwrap().slope.value;
    let drawing = super::graph(&sheet).drawing.unwrap();
    let fit = &drawing.curves[0];
    let (first, last) = (fit.places[0], fit.places[fit.places.len() - 1]);
    assert!(close(first.x, LEFT) && close(first.y, BOTTOM), "{first:?}");
    let across = (last.x - LEFT) / (RIGHT - LEFT) * 180.0;
    let up = (BOTTOM - last.y) / (BOTTOM - TOP) * 50.0;
    assert!((up / across - gradient).abs() < 1e-3, "{up} / {across}");
    let label = fit.label.as_ref().unwrap();
    assert_eq!(label.lines, ["best fit", "gradient 0.241 m/s"]);
}

#[test]
fn the_expected_curve_is_f_over_the_expected_speed() {
    let graph = super::with_curve(&ripples());
    let drawing = graph.drawing.unwrap();
    let curve = drawing
        .curves
        .iter()
        .find(|c| c.class == "expected")
        .unwrap();
    for place in &curve.places {
        let f = (BOTTOM - place.y) / (BOTTOM - TOP) * 50.0;
        let along = LEFT + f / expected(f).unwrap() / 180.0 * (RIGHT - LEFT);
        assert!((place.x - along).abs() < 0.3, "{place:?} at {f} Hz");
    }
    assert!(curve.places.len() > 50, "{} places", curve.places.len());
}

#[test]
fn rows_that_stand_apart_have_their_own_marks_and_names() {
    let graph = with_odd_rows();
    let marks = &graph.drawing.as_ref().unwrap().marks;
    let kinds: Vec<_> = marks.iter().map(|mark| mark.kind).collect();
    assert_eq!(
        kinds,
        [
            Kind::Cross,
            Kind::Cross,
            Kind::Ringed,
            Kind::LeftOut,
            Kind::Cross
        ]
    );
    let names: Vec<_> = marks
        .iter()
        .map(|mark| mark.label.as_ref().map(|label| label.lines.join(" ")))
        .collect();
    let name = |text: &str| Some(text.to_owned());
    assert_eq!(
        names,
        [None, None, name("row 3"), name("row 4"), name("row 5")]
    );
    assert_eq!(
        graph.description,
        "f against 1/λ for 5 rows from 10 Hz to 40 Hz; the line through the origin has \
         gradient 0.251 m/s. Row 3 does not belong with the others. The group left out row 4."
    );
    assert_eq!(graph.key.len(), 2);
}

fn with_odd_rows() -> Graph {
    let mut odd = sheet(vec![
        row("1", (42.0, 10.0)),
        row("2", (63.0, 15.0)),
        row("3", (60.0, 20.0)),
        row("4", (140.0, 25.0)),
        row("5", (165.0, 40.0)),
    ]);
    odd.rows[2].standing = Standing::Anomalous;
    odd.rows[3].left_out = true;
    odd.rows[4].standing = Standing::Mentioned;
    let kept: Vec<_> = odd.points();
    odd.through_origin = analysis::stats::line::through_origin(&kept);
    super::graph(&odd)
}

#[test]
fn an_error_bar_is_as_long_as_the_reading_is_coarse() {
    let mut coarse = ripples();
    coarse.rows[5].wavelength_resolution = 0.02;
    let drawing = super::graph(&coarse).drawing.unwrap();
    let (left, right) = drawing.marks[5].bar.unwrap();
    let length = 2.0 * 0.02 * 165.0 / 180.0 * (RIGHT - LEFT);
    assert!((right - left - length).abs() < 0.2, "{left} to {right}");
    // A bar that would vanish under its cross is not drawn.
    assert_eq!(drawing.marks[0].bar, None);
}

#[test]
fn one_slip_of_a_power_of_ten_leaves_the_others_their_room() {
    let graph = super::graph(&sheet_at(&[
        (42.0, 10.0),
        (63.0, 15.0),
        (84.0, 20.0),
        (1030.0, 25.0),
    ]));
    let drawing = graph.drawing.unwrap();
    assert_eq!(drawing.marks[3].kind, Kind::BeyondRight);
    assert!(close(drawing.marks[3].place.x, RIGHT));
    assert!(drawing.marks[2].place.x > (LEFT + RIGHT) / 2.0);
    let table = graph.points.unwrap().to_string();
    assert!(table.contains(">1030.0<"), "{table}");
}

#[test]
fn the_table_has_every_point_in_the_units_of_the_axes() {
    let graph = with_odd_rows();
    let table = graph.points.unwrap().to_string();
    for figures in [["42.0", "10.0"], ["165.0", "40.0"]] {
        let cells = figures.map(|figure| format!("<td class=\"num\">{figure}</td>"));
        let at = cells.map(|cell| table.find(&cell).expect("both are there"));
        assert!(at[0] < at[1] && at[1] - at[0] < 50, "in one row: {table}");
    }
    assert!(table.contains("left out"), "{table}");
    assert_eq!(table.matches("<tr>").count(), 6);
    assert!(table.contains("does not belong with the others"), "{table}");
}
