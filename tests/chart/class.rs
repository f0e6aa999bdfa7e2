//! The graph of a class.

use analysis::assess::{Assessment, Standing};
use analysis::class_set::summarise;
use server::chart::{GroupPoints, Kind, class_graph};

use super::{ripples, sheet_at};

/// Two groups alike and one 15 % fast.
fn three_groups() -> [Assessment; 3] {
    let fast = [(42.0, 11.5), (84.0, 23.0), (126.0, 34.5)];
    [ripples(), ripples(), sheet_at(&fast)]
}

fn named(sheets: &[Assessment]) -> Vec<GroupPoints<'_>> {
    let names = ["A", "B", "C"];
    let groups = names.iter().zip(sheets);
    groups
        .map(|(name, sheet)| GroupPoints {
            name,
            sheet,
            outlier: *name == "C",
        })
        .collect()
}

#[test]
fn only_what_does_not_belong_is_named() {
    let mut sheets = three_groups();
    sheets[1].rows[2].standing = Standing::Anomalous;
    let graph = class_graph("class", "9B", &named(&sheets), None, None);
    let marks = graph.drawing.unwrap().marks;
    assert_eq!(marks.len(), 15);
    let names: Vec<_> = marks
        .iter()
        .filter_map(|mark| Some((mark.kind, mark.label.as_ref()?.lines.join(" "))))
        .collect();
    let apart = (Kind::Apart, "C".to_owned());
    let ringed = (Kind::Ringed, "B row 3".to_owned());
    assert_eq!(names, [ringed, apart.clone(), apart.clone(), apart]);
}

#[test]
fn the_class_is_described_in_words() {
    let sheets = three_groups();
    let all: Vec<_> = sheets.iter().collect();
    let line = summarise(&all).through_origin;
    let graph = class_graph("class", "9B", &named(&sheets), line.as_ref(), None);
    assert_eq!(
        graph.description,
        "f against 1/λ for 15 rows of 3 groups from 10 Hz to 40 Hz; the line through the \
         origin has gradient 0.246 m/s. Group C does not belong with the class."
    );
}

#[test]
fn rows_left_out_are_not_in_the_class() {
    let mut sheets = three_groups();
    sheets[0].rows[0].left_out = true;
    let graph = class_graph("class", "9B", &named(&sheets), None, None);
    let table = graph.points.unwrap();
    assert_eq!(table.height(), 14);
    assert!(!table.to_string().contains("A row 1<"));
}
