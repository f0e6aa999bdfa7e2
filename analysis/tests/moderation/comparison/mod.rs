//! A sample with both marks, compared: a round worked out by hand, what no
//! round may do, and rounds that are small or odd.

mod odd;
mod properties;
mod worked;

use analysis::moderation::comparison::{Marks, Person, Sheet};
use analysis::moderation::settling::Tolerance;

const TOLERANCE: Tolerance = Tolerance { total: 2, point: 1 };

/// First and second mark of three points, worth 8, 2 and 10.
type Row = (i64, [i64; 3], [i64; 3]);

const POINTS: [(i64, i64); 3] = [(10, 8), (20, 2), (30, 10)];

fn sheet(first_marker: i64, second_marker: i64, (id, first, second): Row) -> Sheet {
    let marks = POINTS.iter().zip(first.iter().zip(&second));
    Sheet {
        id,
        first_markers: vec![first_marker],
        second_marker,
        marks: marks
            .map(|((point, most), (first, second))| Marks {
                point: *point,
                most: *most,
                first: Some(*first),
                second: Some(*second),
            })
            .collect(),
    }
}

/// Sheets with all marks on one point: (first, second), numbered from 1.
fn plain(first_marker: i64, second_marker: i64, totals: &[(i64, i64)]) -> Vec<Sheet> {
    (1..)
        .zip(totals)
        .map(|(id, (first, second))| {
            sheet(
                first_marker,
                second_marker,
                (id, [*first, 0, 0], [*second, 0, 0]),
            )
        })
        .collect()
}

fn person(people: &[Person], who: i64) -> &Person {
    let found = people.iter().find(|line| line.person == who);
    found.expect("the person has a line")
}

/// As far as figures worked out by hand are written.
fn near(found: f64, by_hand: f64) -> bool {
    (found - by_hand).abs() < 5e-6
}
