//! Suggested marks: error carried forward, and one slip for one mark.

mod examples;
mod one_slip;
mod readings;

use std::collections::BTreeMap;

use analysis::assess::assess;
use analysis::method::Method;
use analysis::scheme::{Check, Judged, Point, Suggestion, house, suggest};
use analysis::sheet::{Sheet, TypedSheet};

/// A point that a check judges.
fn point(check: Check, marks: u32) -> Point {
    Point {
        title: check.code().to_owned(),
        guidance: String::new(),
        marks,
        judged: Judged::ByCheck(check),
        levels: Vec::new(),
    }
}

/// What is suggested for these points, all of them by check.
fn suggested(points: &[Point], typed: &TypedSheet) -> Vec<Suggestion> {
    let sheet = Sheet::check(typed).expect("a sheet that can be read");
    let points: Vec<&Point> = points.iter().collect();
    suggest(&points, &sheet, &assess(&sheet))
        .into_iter()
        .map(|suggestion| suggestion.expect("a point by check"))
        .collect()
}

fn marks(points: &[Point], typed: &TypedSheet) -> Vec<u32> {
    let suggested = suggested(points, typed);
    suggested.into_iter().map(|s| s.marks).collect()
}

/// The points by check of the scheme that comes with the program.
fn by_check(method: Method) -> Vec<Point> {
    let points = house(method).into_iter();
    let by_check = points.filter_map(|of| match of.judged {
        Judged::ByCheck(check) => Some(point(check, of.marks)),
        Judged::ByEye(_) => None,
    });
    by_check.collect()
}

fn total(points: &[Point], typed: &TypedSheet) -> u32 {
    marks(points, typed).into_iter().sum()
}

fn full(points: &[Point]) -> u32 {
    points.iter().map(|point| point.marks).sum()
}

/// Repeats the first row once more, so that a repeat is there to be found.
fn with_repeat(mut sheet: TypedSheet) -> TypedSheet {
    let mut again = sheet.rows[0].clone();
    again.label = (sheet.rows.len() + 1).to_string();
    sheet.rows.push(again);
    sheet
}

fn blank(method: Method) -> TypedSheet {
    TypedSheet {
        method,
        whole: BTreeMap::new(),
        rows: Vec::new(),
    }
}
