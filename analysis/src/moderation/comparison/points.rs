//! Each marking point over all sheets and people, those that cause
//! disagreement first.

use serde::{Deserialize, Serialize};

use super::Sheet;
use super::agreement::{Agreement, Pair};

/// One marking point.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// Which.
    pub point: i64,
    /// How many marks it is worth; the most that any version gives it.
    pub most: i64,
    /// The statistics, over the sheets with both marks of it.
    pub agreement: Agreement,
    /// Sheets on which the two marks differ.
    pub differing: usize,
    /// Its part of all marks in dispute, 0 to 1: the sizes of its differences
    /// over those of every point's. `None` where no point differs.
    pub part: Option<f64>,
}

/// The points with both marks on some sheet: those first of which the largest
/// share of sheets differs, then those that differ by the most marks a sheet,
/// then in the order of the scheme.
pub(super) fn points(sheets: &[Sheet], tolerance: i64) -> Vec<Point> {
    let mut points: Vec<Point> = keys(sheets)
        .into_iter()
        .filter_map(|(point, most)| {
            let pairs: Vec<Pair> = sheets
                .iter()
                .filter_map(|sheet| pair(sheet, point))
                .collect();
            let agreement = Agreement {
                limits: None,
                ..Agreement::of(&pairs, tolerance)?
            };
            Some(Point {
                point,
                most,
                differing: agreement.n - agreement.exact.count,
                agreement,
                part: None,
            })
        })
        .collect();
    let in_dispute: f64 = points.iter().map(marks_apart).sum();
    for point in &mut points {
        point.part = (in_dispute > 0.0).then(|| marks_apart(point) / in_dispute);
    }
    points.sort_by(|a, b| {
        let share = |point: &Point| point.differing as f64 / point.agreement.n as f64;
        let size = |point: &Point| point.agreement.mean_absolute;
        share(b)
            .total_cmp(&share(a))
            .then_with(|| size(b).total_cmp(&size(a)))
    });
    points
}

fn marks_apart(point: &Point) -> f64 {
    point.agreement.mean_absolute * point.agreement.n as f64
}

/// Every point with the most marks that it is worth, in the order of the sheet
/// that has the lowest number; points that only other versions have come after.
fn keys(sheets: &[Sheet]) -> Vec<(i64, i64)> {
    let mut by_number: Vec<&Sheet> = sheets.iter().collect();
    by_number.sort_by_key(|sheet| sheet.id);
    let mut keys: Vec<(i64, i64)> = Vec::new();
    for marks in by_number.iter().flat_map(|sheet| &sheet.marks) {
        match keys.iter_mut().find(|(point, _)| *point == marks.point) {
            Some((_, most)) => *most = marks.most.max(*most),
            None => keys.push((marks.point, marks.most)),
        }
    }
    keys
}

fn pair(sheet: &Sheet, point: i64) -> Option<Pair> {
    let marks = sheet.marks.iter().find(|marks| marks.point == point)?;
    Some(Pair {
        sheet: sheet.id,
        first: marks.first? as f64,
        second: marks.second? as f64,
    })
}
