//! A round's two markings, compared: rows put together for the analysis, and
//! what its numbers stand for.

use std::collections::{BTreeMap, BTreeSet};

use analysis::moderation::comparison::{self, Comparison, Marks, Sheet};

use super::line::{self, ComparisonLine};
use super::pairs::{Pair, each_point, titles};
use super::settling::tolerance;
use crate::db::round::Round;
use crate::ids::StaffId;

/// The comparison of a round, with both marks that it is made from.
#[derive(Debug)]
pub struct Compared {
    /// What the analysis makes of it. Sheets go by the ids of `pairs`, points
    /// by their keys, people by their ids.
    pub comparison: Comparison,
    /// Both marks of each sheet, in the order in which they were marked.
    pub pairs: Vec<Pair>,
    /// What people are called.
    people: BTreeMap<i64, String>,
    /// What points are called.
    points: BTreeMap<i64, String>,
}

impl Compared {
    /// Compares both marks of a round's sample.
    #[must_use]
    pub fn of(pairs: Vec<Pair>, round: &Round) -> Self {
        Self {
            comparison: compare(&pairs, round),
            people: people(&pairs),
            points: titles(&each_point(&pairs)),
            pairs,
        }
    }

    /// Returns its lines.
    #[must_use]
    pub fn lines(&self) -> Vec<ComparisonLine<'_>> {
        line::lines(&self.comparison, &self.people, &self.points)
    }

    /// Returns a sheet by its number.
    #[must_use]
    pub fn pair(&self, sheet: i64) -> Option<&Pair> {
        let mut pairs = self.pairs.iter();
        pairs.find(|pair| pair.sheet.id.0 == sheet)
    }

    /// Returns the sheets on which the two marks of a point differ, in the
    /// order in which they were marked: the sheet, the first mark and the
    /// second.
    #[must_use]
    pub fn differing(&self, key: i64) -> Vec<(&Pair, i64, i64)> {
        let both = self.pairs.iter().filter_map(|pair| {
            let mut points = pair.points.iter();
            let (first, second) = points.find(|point| point.asked.key == key)?.marks();
            Some((pair, first?, second?))
        });
        both.filter(|(_, first, second)| first != second).collect()
    }

    /// Says whether somebody marked a sheet of the sample, first or second.
    #[must_use]
    pub fn has_marks_of(&self, person: StaffId) -> bool {
        self.pairs.iter().any(|pair| pair.is_by(person))
    }
}

/// Compares both marks of some sheets of a round.
pub fn compare<'a>(pairs: impl IntoIterator<Item = &'a Pair>, round: &Round) -> Comparison {
    let sheets: Vec<Sheet> = pairs.into_iter().filter_map(sheet).collect();
    comparison::compare(&sheets, tolerance(round))
}

/// Names of everyone who marked one of these sheets, first or second, by their
/// ids.
pub fn people<'a>(pairs: impl IntoIterator<Item = &'a Pair>) -> BTreeMap<i64, String> {
    let mut names = BTreeMap::new();
    for pair in pairs {
        let first = pair.first_marks();
        names.extend(first.map(|mark| (mark.staff_id.0, mark.by.clone())));
        if let (Some(id), Some(name)) = (pair.sheet.marker_id, &pair.sheet.marker) {
            names.insert(id.0, name.clone());
        }
    }
    names
}

/// `None` of an anchor, which has no second marker.
fn sheet(pair: &Pair) -> Option<Sheet> {
    let first: BTreeSet<i64> = pair.first_marks().map(|mark| mark.staff_id.0).collect();
    let marks = pair.points.iter().map(|point| {
        let (first, second) = point.marks();
        Marks {
            point: point.asked.key,
            most: i64::from(point.asked.point.marks),
            first,
            second,
        }
    });
    Some(Sheet {
        id: pair.sheet.id.0,
        first_markers: first.into_iter().collect(),
        second_marker: pair.sheet.marker_id?.0,
        marks: marks.collect(),
    })
}
