//! Two markers' differences against the means of both.

use server::chart::difference::{Level, Sheet};
use server::chart::frame::{BOTTOM, LEFT, RIGHT, TOP};
use server::chart::{Drawing, Graph, difference_plot};

use crate::support::Part;

/// The tolerance is 2 marks.
fn sheet(name: &str, mean: f64, difference: f64) -> Sheet {
    Sheet {
        name: name.to_owned(),
        mean,
        difference,
        is_within: difference.abs() <= 2.0,
    }
}

fn level(name: &'static str, at: f64) -> Level {
    let class = "expected";
    Level { name, at, class }
}

fn plot(sheets: &[Sheet], levels: &[Level]) -> Graph {
    difference_plot("d", sheets, levels, 20.0).expect("there is a sheet")
}

fn drawn(sheets: &[Sheet], levels: &[Level]) -> Drawing {
    plot(sheets, levels).drawing.expect("it can be drawn")
}

/// Where nought is, from the top: its line is the last.
fn nought(drawing: &Drawing) -> f64 {
    drawing.curves.last().expect("nought has a line").places[0].y
}

#[test]
fn nought_stands_in_the_middle_and_crosses_where_their_marks_are() {
    let sheets = [sheet("A", 10.0, 4.0), sheet("B", 5.0, -2.0)];
    let plot = drawn(&sheets, &[]);
    let middle = f64::midpoint(TOP, BOTTOM);
    assert!((nought(&plot) - middle).abs() < 0.1);
    // 20 marks along, and 5 up and down: 4 marks and headroom.
    let (first, second) = (plot.marks[0].place, plot.marks[1].place);
    assert!((first.x - (LEFT + RIGHT) / 2.0).abs() < 0.1, "{first:?}");
    assert!((second.x - (LEFT + (RIGHT - LEFT) / 4.0)).abs() < 0.1);
    let a_mark = (middle - first.y) / 4.0;
    assert!((second.y - middle - 2.0 * a_mark).abs() < 0.2, "{second:?}");
    let texts: Vec<&str> = plot
        .up
        .numbers
        .iter()
        .map(|label| label.text.as_str())
        .collect();
    assert!(texts.contains(&"+4") && texts.contains(&"−4") && texts.contains(&"0"));
}

#[test]
fn only_sheets_outside_the_tolerance_are_heavy_and_named() {
    let plot = plot(&[sheet("A", 10.0, 4.0), sheet("B", 5.0, -2.0)], &[]);
    let marks = plot.drawing.as_ref().unwrap().marks.iter();
    let names: Vec<_> = marks.map(|mark| mark.label.is_some()).collect();
    assert_eq!(names, [true, false]);
    let text = plot.to_string();
    assert_eq!(Part::page(&text).all(".cross.apart").len(), 1);
    assert!(
        text.contains("1 sheet lies outside the tolerance"),
        "{text}"
    );
    assert!(text.contains("Heavy crosses are sheets outside"), "{text}");
}

#[test]
fn sheets_that_fall_on_each_other_are_counted() {
    let sheets = [
        sheet("A", 10.0, 1.0),
        sheet("B", 10.0, 1.0),
        sheet("C", 9.0, 0.0),
    ];
    let plot = plot(&sheets, &[]);
    assert_eq!(plot.drawing.as_ref().unwrap().marks.len(), 2);
    let text = plot.to_string();
    assert!(text.contains(">×2<"), "{text}");
    assert!(text.contains("for 3 sheets"), "{text}");
    assert!(text.contains("how many sheets fall on it"), "{text}");
}

#[test]
fn levels_are_on_the_paper_and_named() {
    let levels = [
        level("mean", 0.5),
        level("upper limit", 7.5),
        level("lower limit", -6.5),
    ];
    let plot = drawn(&[sheet("A", 10.0, 1.0)], &levels);
    for level in &plot.curves[..3] {
        assert!((TOP..=BOTTOM).contains(&level.places[0].y), "{level:?}");
        assert!(level.label.is_some(), "{level:?}");
    }
}

#[test]
fn many_names_are_left_to_the_table() {
    let sheets: Vec<Sheet> = (0..12)
        .map(|at| sheet("a long name", f64::from(at), 5.0))
        .collect();
    let plot = drawn(&sheets, &[]);
    assert!(plot.marks.iter().all(|mark| mark.label.is_none()));
}

#[test]
fn no_sheet_makes_no_plot_and_agreement_makes_one() {
    assert!(difference_plot("d", &[], &[], 20.0).is_none());
    assert!(difference_plot("d", &[sheet("A", 0.0, 0.0)], &[], 0.0).is_none());
    let plot = plot(&[sheet("A", 0.0, 0.0)], &[level("mean", 0.0)]);
    assert!(plot.key.is_empty());
    let plot = plot.drawing.unwrap();
    assert!((plot.marks[0].place.y - nought(&plot)).abs() < 0.1);
}

#[test]
fn names_are_escaped_and_nothing_is_inline() {
    let text = plot(&[sheet("<b>&", 10.0, 4.0)], &[]).to_string();
    assert!(
        text.contains("&#60;b&#62;&#38;") && !text.contains("<b>"),
        "{text}"
    );
    for word in [" style=", "<style", "<script", "http", "url(", "NaN"] {
        assert!(!text.contains(word), "{word} in {text}");
    }
}
