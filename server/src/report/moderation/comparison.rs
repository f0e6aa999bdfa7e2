//! A round's two markings, compared: rows put together for the analysis, and
//! what its numbers stand for.

use std::collections::{BTreeMap, BTreeSet};

use analysis::moderation::comparison::{self, Comparison, Marks, Sheet};

use super::line::{self, Line};
use super::pairs::{Pair, Pairs, Points};
use super::settling::tolerance;
use crate::db::round::Round;
use crate::db::scheme::MarkingPoint;
use crate::ids::StaffId;

/// The comparison of a round, with both marks that it is made from.
#[derive(Debug)]
pub struct Compared {
    /// What the analysis makes of it. Sheets go by the ids of `pairs`, points
    /// by their keys, people by their ids.
    pub comparison: Comparison,
    /// Both marks of each sheet.
    pub pairs: Pairs,
    /// What people are called.
    people: BTreeMap<i64, String>,
    /// What points are called.
    points: BTreeMap<i64, String>,
}

impl Compared {
    /// Compares both marks of a round's sample.
    #[must_use]
    pub fn of(pairs: Pairs, round: &Round) -> Self {
        Self {
            comparison: compare(pairs.sheets.iter(), &pairs.points, round),
            people: people(pairs.sheets.iter()),
            points: pairs.points.titles([]),
            pairs,
        }
    }

    /// Returns its lines.
    #[must_use]
    pub fn lines(&self) -> Vec<Line<'_>> {
        line::lines(&self.comparison, &self.people, &self.points)
    }

    /// A sheet by its number.
    #[must_use]
    pub fn pair(&self, sheet: i64) -> Option<&Pair> {
        let mut pairs = self.pairs.sheets.iter();
        pairs.find(|pair| pair.sheet.id.0 == sheet)
    }

    /// The sheets on which the two marks of a point differ, in the order in
    /// which they were marked: the sheet, the first mark and the second.
    #[must_use]
    pub fn differing(&self, key: i64) -> Vec<(&Pair, i64, i64)> {
        let sheets = self.pairs.sheets.iter();
        let both = sheets.filter_map(|pair| {
            let mut points = self.pairs.points.of(&pair.sheet).iter();
            let at = points.position(|point| point.key == key)?;
            let first = pair.first[at].as_ref()?.awarded?;
            let second = pair.second[at].as_ref()?.awarded?;
            Some((pair, first, second))
        });
        both.filter(|(_, first, second)| first != second).collect()
    }

    /// Whether somebody marked a sheet of the sample, first or second.
    #[must_use]
    pub fn has_marks_of(&self, person: StaffId) -> bool {
        self.pairs.sheets.iter().any(|pair| pair.is_by(person))
    }
}

/// Compares both marks of some sheets of a round.
#[must_use]
pub fn compare<'a>(
    pairs: impl Iterator<Item = &'a Pair>,
    points: &Points,
    round: &Round,
) -> Comparison {
    let sheets: Vec<Sheet> = pairs
        .filter_map(|pair| sheet(pair, points.of(&pair.sheet)))
        .collect();
    comparison::compare(&sheets, tolerance(round))
}

/// Names of everyone who marked one of these sheets, first or second, by their
/// ids.
#[must_use]
pub fn people<'a>(pairs: impl Iterator<Item = &'a Pair>) -> BTreeMap<i64, String> {
    let mut names = BTreeMap::new();
    for pair in pairs {
        for mark in pair.first.iter().flatten() {
            names.insert(mark.staff_id.0, mark.by.clone());
        }
        if let (Some(id), Some(name)) = (pair.sheet.marker_id, &pair.sheet.marker) {
            names.insert(id.0, name.clone());
        }
    }
    names
}

/// `None` of an anchor, which has no second marker.
fn sheet(pair: &Pair, points: &[MarkingPoint]) -> Option<Sheet> {
    let first = pair.first.iter().flatten().map(|mark| mark.staff_id.0);
    let first: BTreeSet<i64> = first.collect();
    let marks = points.iter().zip(pair.first.iter().zip(&pair.second));
    Some(Sheet {
        id: pair.sheet.id.0,
        first_markers: first.into_iter().collect(),
        second_marker: pair.sheet.marker_id?.0,
        marks: marks
            .map(|(point, (first, second))| Marks {
                point: point.key,
                most: i64::from(point.point.marks),
                first: first.as_ref().and_then(|mark| mark.awarded),
                second: second.as_ref().and_then(|mark| mark.awarded),
            })
            .collect(),
    })
}
