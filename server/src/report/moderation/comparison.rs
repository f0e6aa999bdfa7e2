//! A round's two markings, compared: rows put together for the analysis, and
//! what its numbers stand for.

use std::collections::{BTreeSet, HashMap};

use analysis::moderation::comparison::{self, Comparison, Marks, Sheet};

use super::pairs::{self, Pair, Pairs};
use super::settling::tolerance;
use crate::db::mark::Mark;
use crate::db::round::Round;
use crate::db::scheme::MarkingPoint;
use crate::db::{Connection, Error};
use crate::ids::StaffId;

/// The comparison of a round, with both marks that it is made from.
#[derive(Debug)]
pub struct Compared {
    /// What the analysis makes of it. Sheets go by the ids of `pairs`, points
    /// by their keys, people by their ids.
    pub comparison: Comparison,
    /// Both marks of each sheet.
    pub pairs: Pairs,
}

/// Loads and compares both marks of a round's sample. For nobody before they
/// are shown.
pub async fn load(db: &mut Connection, round: &Round) -> Result<Compared, Error> {
    Ok(Compared::of(pairs::load(db, round).await?, round))
}

impl Compared {
    /// Compares both marks of a round's sample.
    #[must_use]
    pub fn of(pairs: Pairs, round: &Round) -> Self {
        let sheets = pairs.sheets.iter();
        let sheets: Vec<Sheet> = sheets
            .filter_map(|pair| sheet(pair, &pairs.points[&pair.sheet.scheme_version_id]))
            .collect();
        Self {
            comparison: comparison::compare(&sheets, tolerance(round)),
            pairs,
        }
    }

    /// A sheet by its number.
    #[must_use]
    pub fn pair(&self, sheet: i64) -> Option<&Pair> {
        let mut pairs = self.pairs.sheets.iter();
        pairs.find(|pair| pair.sheet.id.0 == sheet)
    }

    /// A point by its key, as the newest version of the sample has it.
    #[must_use]
    pub fn point(&self, key: i64) -> Option<&MarkingPoint> {
        let versions = self.pairs.points.iter();
        let points = versions.filter_map(|(version, points)| {
            let point = points.iter().find(|point| point.key == key)?;
            Some((version, point))
        });
        let newest = points.max_by_key(|(version, _)| **version);
        newest.map(|(_, point)| point)
    }

    /// Names of everyone who marked a sheet of the sample, first or second.
    #[must_use]
    pub fn names(&self) -> HashMap<i64, String> {
        let mut names = HashMap::new();
        for pair in &self.pairs.sheets {
            for mark in pair.first.iter().flatten() {
                names.insert(mark.staff_id.0, mark.by.clone());
            }
            if let (Some(id), Some(name)) = (pair.sheet.marker_id, &pair.sheet.marker) {
                names.insert(id.0, name.clone());
            }
        }
        names
    }

    /// The sheets on which the two marks of a point differ, in the order in
    /// which they were marked: the sheet, the first mark and the second.
    #[must_use]
    pub fn differing(&self, key: i64) -> Vec<(&Pair, i64, i64)> {
        let sheets = self.pairs.sheets.iter();
        let both = sheets.filter_map(|pair| {
            let points = &self.pairs.points[&pair.sheet.scheme_version_id];
            let at = points.iter().position(|point| point.key == key)?;
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

/// `None` of an anchor, which has no second marker.
fn sheet(pair: &Pair, points: &[MarkingPoint]) -> Option<Sheet> {
    let first: BTreeSet<StaffId> = given(&pair.first).map(|mark| mark.staff_id).collect();
    let marks = points.iter().zip(pair.first.iter().zip(&pair.second));
    Some(Sheet {
        id: pair.sheet.id.0,
        first_markers: first.into_iter().map(|person| person.0).collect(),
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

fn given(marks: &[Option<Mark>]) -> impl Iterator<Item = &Mark> {
    marks.iter().flatten()
}
