//! The standard of a round: every marker's marks of the anchors, point by
//! point, differences first.

use std::cmp::Reverse;
use std::collections::HashMap;

use crate::db::round::{self, Marker, Round};
use crate::db::round_sheet::{self, Kind, RoundSheet};
use crate::db::ruling::{self, Ruling};
use crate::db::scheme::{self, MarkingPoint};
use crate::db::second_mark::{self, SecondMark};
use crate::db::{Connection, Error};
use crate::ids::{RoundSheetId, StaffId};

/// All marks of the anchors, side by side.
#[derive(Debug)]
pub struct Standard {
    /// The markers of the round, by name.
    pub markers: Vec<Marker>,
    /// The anchors, in the order in which they were marked.
    pub anchors: Vec<RoundSheet>,
    /// The points, those with the widest differences first.
    pub points: Vec<StandardPoint>,
    /// Each marker's total of each anchor: markers within anchors; `None`
    /// where not every point has a mark.
    pub totals: Vec<Vec<Option<i64>>>,
}

/// One point over all anchors.
#[derive(Debug)]
pub struct StandardPoint {
    pub point: MarkingPoint,
    /// One line an anchor.
    pub lines: Vec<StandardLine>,
    /// The ruling that stands, in whichever round it was made.
    pub ruling: Option<Ruling>,
}

/// One point of one anchor.
#[derive(Debug)]
pub struct StandardLine {
    /// What each marker gave, in the order of the markers; `None`: nothing.
    pub marks: Vec<Option<SecondMark>>,
}

impl StandardLine {
    /// Returns how much each marker gave, in the order of the markers.
    #[must_use]
    pub fn awarded(&self) -> Vec<Option<i64>> {
        let marks = self.marks.iter();
        marks.map(|mark| mark.as_ref()?.awarded).collect()
    }

    /// Between the highest and the lowest mark; nought where fewer than two
    /// have marked.
    #[must_use]
    pub fn apart(&self) -> i64 {
        apart(&self.awarded())
    }
}

/// Returns what is between the highest and the lowest of some marks; nought of
/// fewer than two.
#[must_use]
pub fn apart(marks: &[Option<i64>]) -> i64 {
    let awarded = || marks.iter().flatten();
    let ends = awarded().max().zip(awarded().min());
    ends.map_or(0, |(high, low)| high - low)
}

impl StandardPoint {
    /// Returns the widest difference between two markers on any anchor.
    #[must_use]
    pub fn apart(&self) -> i64 {
        self.lines
            .iter()
            .map(StandardLine::apart)
            .max()
            .unwrap_or(0)
    }

    /// On how many anchors the markers differ.
    #[must_use]
    pub fn differing(&self) -> usize {
        self.lines.iter().filter(|line| line.apart() > 0).count()
    }
}

impl Standard {
    /// Points on which the markers differ and on which nothing is ruled.
    #[must_use]
    pub fn unruled(&self) -> usize {
        let points = self.points.iter();
        points
            .filter(|point| point.apart() > 0 && point.ruling.is_none())
            .count()
    }
}

/// Loads the standard of a round. For nobody before it is shown.
pub async fn load(db: &mut Connection, round: &Round) -> Result<Standard, Error> {
    let markers = round::list_markers(db, round.id).await?;
    let sheets = round_sheet::list(db, round.id).await?;
    let anchors: Vec<RoundSheet> = sheets
        .into_iter()
        .filter(|sheet| sheet.kind == Kind::Anchor)
        .collect();
    let points = match anchors.first() {
        Some(anchor) => scheme::list_points(db, anchor.scheme_version_id).await?,
        None => Vec::new(),
    };
    let marks = second_mark::list_in_round(db, round.id).await?;
    let marks: HashMap<(RoundSheetId, i64, StaffId), SecondMark> = marks
        .into_iter()
        .filter(|mark| mark.awarded.is_some())
        .map(|mark| ((mark.round_sheet_id, mark.key, mark.staff_id), mark))
        .collect();
    let rulings = ruling::list_standing(db, round.scheme_id).await?;
    let mut rulings: HashMap<i64, Ruling> = rulings
        .into_iter()
        .map(|ruling| (ruling.point_key, ruling))
        .collect();
    let line = |anchor: &RoundSheet, key| {
        let given = markers
            .iter()
            .map(|marker| marks.get(&(anchor.id, key, marker.id)).cloned());
        StandardLine {
            marks: given.collect(),
        }
    };
    let points = points.into_iter().map(|point| StandardPoint {
        lines: anchors
            .iter()
            .map(|anchor| line(anchor, point.key))
            .collect(),
        ruling: rulings.remove(&point.key),
        point,
    });
    let mut points: Vec<StandardPoint> = points.collect();
    let totals = totals(&points, anchors.len(), markers.len());
    points.sort_by_key(|point| (Reverse(point.apart()), Reverse(point.differing())));
    Ok(Standard {
        totals,
        markers,
        anchors,
        points,
    })
}

fn totals(points: &[StandardPoint], anchors: usize, markers: usize) -> Vec<Vec<Option<i64>>> {
    let total = |anchor: usize, marker: usize| -> Option<i64> {
        let marks = points
            .iter()
            .map(|point| point.lines[anchor].marks[marker].as_ref()?.awarded);
        marks.sum()
    };
    let of_anchor = |anchor| (0..markers).map(|marker| total(anchor, marker)).collect();
    (0..anchors).map(of_anchor).collect()
}
