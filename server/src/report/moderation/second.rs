//! A sheet as its second marker sees it.
//!
//! Nothing here is read from first marks, decisions on slips or notes: what is
//! suggested comes from the sheet alone, so it is the same whoever marked it
//! first and however.

use std::collections::HashMap;

use analysis::scheme::{Point, Suggestion, suggest};

use crate::db::round_sheet::RoundSheet;
use crate::db::scheme::{self, MarkingPoint, Version};
use crate::db::second_mark::{self, SecondMark};
use crate::db::{Connection, Error, revision};
use crate::ids::StaffId;
use crate::report::Work;

/// A sheet of a round, with the second marks of one marker.
#[derive(Debug)]
pub struct SecondSheet {
    /// Where it stands in its round.
    pub sheet: RoundSheet,
    /// The version that it is marked with.
    pub version: Version,
    /// What the group stored, as it was when the sheet was taken into the
    /// round; `None`: nothing, only paper.
    pub work: Option<Work>,
    /// How each point stands, in the order of the scheme.
    pub points: Vec<SecondPoint>,
}

/// How one point stands.
#[derive(Clone, Debug)]
pub struct SecondPoint {
    /// The point.
    pub point: MarkingPoint,
    /// What the sheet alone suggests; `None` where it is judged by eye, or
    /// nothing is stored.
    pub suggestion: Option<Suggestion>,
    /// The marker's own mark; `None` where there is none, or it was taken
    /// back.
    pub mark: Option<SecondMark>,
}

impl SecondPoint {
    /// The marks awarded, if any are.
    #[must_use]
    pub fn awarded(&self) -> Option<i64> {
        self.mark.as_ref()?.awarded
    }
}

impl SecondSheet {
    /// Points that have a mark.
    #[must_use]
    pub fn marked(&self) -> usize {
        self.points.iter().filter_map(SecondPoint::awarded).count()
    }

    /// Marks so far.
    #[must_use]
    pub fn total(&self) -> i64 {
        self.points.iter().filter_map(SecondPoint::awarded).sum()
    }

    /// Whether every point has a mark.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.marked() == self.points.len()
    }
}

/// Loads a sheet of a round for one of its markers.
///
/// # Errors
/// When a query fails.
pub async fn load(
    db: &mut Connection,
    sheet: RoundSheet,
    marker: StaffId,
) -> Result<SecondSheet, Error> {
    let version = scheme::get_version(db, sheet.scheme_version_id).await?;
    let points = scheme::list_points(db, version.id).await?;
    let work = match sheet.revision_id {
        Some(id) => Work::of(revision::get(db, id).await?, Vec::new()),
        None => None,
    };
    let marks = second_mark::list_own(db, sheet.id, marker).await?;
    let mut marks: HashMap<i64, SecondMark> =
        marks.into_iter().map(|mark| (mark.key, mark)).collect();
    let suggestions = suggestions(&points, work.as_ref());
    let points = points.into_iter().zip(suggestions);
    let points = points.map(|(point, suggestion)| SecondPoint {
        suggestion,
        mark: marks.remove(&point.key),
        point,
    });
    Ok(SecondSheet {
        points: points.collect(),
        sheet,
        version,
        work,
    })
}

/// What the sheet alone suggests for each point: no slip is taken out of what
/// its figures show, whatever anybody decided on it.
#[must_use]
pub fn suggestions(points: &[MarkingPoint], work: Option<&Work>) -> Vec<Option<Suggestion>> {
    let asked: Vec<&Point> = points.iter().map(|point| &point.point).collect();
    match work {
        Some(work) => suggest(&asked, &work.sheet, &work.assessment),
        None => vec![None; asked.len()],
    }
}
