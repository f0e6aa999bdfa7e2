//! Names in a graph keep clear of each other and of the marks.

use analysis::assess::{Assessment, Standing};
use server::chart::frame::WIDTH;
use server::chart::label::{Area, Label};
use server::chart::{Drawing, GroupPoints, class_graph};

use super::{expected, ripples, sheet_at};

fn areas(drawing: &Drawing) -> Vec<Area> {
    drawing.labels().into_iter().map(Label::area).collect()
}

/// No name on another, on a mark or outside the drawing.
fn assert_clear(drawing: &Drawing) {
    let areas = areas(drawing);
    for (at, area) in areas.iter().enumerate() {
        for other in &areas[..at] {
            assert!(area.common(other) <= 0.0, "{area:?} covers {other:?}");
        }
        for mark in &drawing.marks {
            let mark = Area::about(mark.place, 5.0);
            assert!(area.common(&mark) <= 0.0, "{area:?} covers {mark:?}");
        }
        assert!(area.left >= 0.0 && area.right <= WIDTH, "{area:?}");
        assert!(area.top >= 0.0 && area.bottom <= drawing.height, "{area:?}");
    }
}

#[test]
fn lines_close_together_are_named_clear_of_each_other() {
    let graph = super::with_curve(&ripples());
    let drawing = graph.drawing.unwrap();
    assert_eq!(areas(&drawing).len(), 2);
    assert_clear(&drawing);
}

#[test]
fn odd_rows_are_named_clear_of_the_lines_names() {
    let mut odd = ripples();
    odd.rows[2].standing = Standing::Anomalous;
    odd.rows[5].left_out = true;
    let drawing = super::with_curve(&odd).drawing.unwrap();
    assert_eq!(areas(&drawing).len(), 4);
    assert_clear(&drawing);
}

#[test]
fn a_full_class_is_named_clear() {
    let sheets = twelve_groups();
    let names = ["A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L", "M"];
    let groups: Vec<_> = names
        .iter()
        .zip(&sheets)
        .map(|(name, sheet)| GroupPoints {
            name,
            sheet,
            outlier: *name == "M",
        })
        .collect();
    let line = sheets[0].through_origin;
    let drawing = class_graph("g", "9B", &groups, line.as_ref(), Some(&expected))
        .drawing
        .unwrap();
    assert_eq!(areas(&drawing).len(), 8);
    assert_clear(&drawing);
}

/// Eleven groups within 2 % of each other, the twelfth a third slow.
fn twelve_groups() -> Vec<Assessment> {
    let group = |number: u32| {
        let off = f64::from(number % 5) * 0.01 - 0.02;
        let slow = if number == 11 { 1.33 } else { 1.0 };
        let points: Vec<_> = [10.0, 15.0, 20.0, 25.0, 30.0, 40.0]
            .into_iter()
            .map(|f| (f / 0.245 * slow * (1.0 + off), f))
            .collect();
        sheet_at(&points)
    };
    (0..12).map(group).collect()
}
