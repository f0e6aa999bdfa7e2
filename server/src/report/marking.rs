//! Marks beside what the judged working suggests.

use std::collections::{BTreeSet, HashMap};

use analysis::scheme::{Point, Suggestion, suggest};

use super::Work;
use super::class_set::{self, ClassReport};
use crate::db::mark::{self, Mark};
use crate::db::ruling::{self, Ruling};
use crate::db::scheme::{self, MarkingPoint, Version};
use crate::db::{Connection, Error};
use crate::ids::{ClassSetId, MarkId, MarkingPointId, SchemeVersionId, SheetId};

/// A class set with its marks.
#[derive(Debug)]
pub struct MarkingReport {
    /// The class set, judged.
    pub class: ClassReport,
    /// The version that it is marked with, or would be if somebody began.
    pub version: Version,
    /// Its points, in order.
    pub points: Vec<MarkingPoint>,
    /// The marks of each group, in the order of `class.groups`.
    pub sheets: Vec<MarkedSheet>,
    /// What was ruled on its points in moderation rounds.
    pub rulings: Vec<Ruling>,
}

/// The marks of one sheet.
#[derive(Clone, Debug)]
pub struct MarkedSheet {
    /// How each point stands, in the order of the scheme.
    pub points: Vec<PointStanding>,
}

/// How one point of one sheet stands.
#[derive(Clone, Debug)]
pub struct PointStanding {
    /// What the working suggests; `None` where the point is judged by eye, or
    /// nothing is stored.
    pub suggestion: Option<Suggestion>,
    /// The mark that stands; `None` where there is none, or it was taken back.
    pub mark: Option<Mark>,
    /// The newest word on the point, taken back or not: what a page was made
    /// from, so that two markers notice each other.
    pub newest: Option<MarkId>,
    /// Whether the sheet was stored again since that mark was given.
    pub is_on_earlier_revision: bool,
    /// Whether the point has changed in the scheme since then.
    pub is_of_earlier_version: bool,
}

impl MarkingReport {
    /// Whether anybody has marked any point, taken back or not.
    #[must_use]
    pub fn is_begun(&self) -> bool {
        let mut points = self.sheets.iter().flat_map(|sheet| &sheet.points);
        points.any(|point| point.newest.is_some())
    }

    /// Marks that a sheet can have.
    #[must_use]
    pub fn most(&self) -> u32 {
        self.points.iter().map(|point| point.point.marks).sum()
    }

    /// Sheets on which every point has a mark.
    #[must_use]
    pub fn complete(&self) -> usize {
        self.sheets
            .iter()
            .filter(|sheet| sheet.is_complete())
            .count()
    }
}

impl MarkedSheet {
    /// Marks so far.
    #[must_use]
    pub fn total(&self) -> i64 {
        let marks = self.points.iter().filter_map(PointStanding::awarded);
        marks.sum()
    }

    /// Points that have a mark.
    #[must_use]
    pub fn marked(&self) -> usize {
        let marks = self.points.iter().filter_map(PointStanding::awarded);
        marks.count()
    }

    /// Whether every point has a mark.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.marked() == self.points.len()
    }
}

impl PointStanding {
    /// The marks awarded, if any are.
    #[must_use]
    pub fn awarded(&self) -> Option<i64> {
        self.mark.as_ref()?.awarded
    }

    /// Whether its mark was made on something that has changed since: the
    /// marker decides whether it still holds.
    #[must_use]
    pub fn is_earlier(&self) -> bool {
        self.is_on_earlier_revision || self.is_of_earlier_version
    }
}

/// Loads and judges a class set with its marks.
///
/// # Errors
/// When a query fails, or there is no such class set.
pub async fn load(db: &mut Connection, id: ClassSetId) -> Result<MarkingReport, Error> {
    let class = class_set::load(db, id).await?;
    let version_id = scheme::get_of_class_set(db, &class.class_set).await?;
    let version = scheme::get_version(db, version_id).await?;
    let points = scheme::list_points(db, version_id).await?;
    let marks = mark::list_standing(db, &[id], version.scheme_id, None).await?;
    let scheme = Scheme::of(db, points, &marks).await?;
    let mut by_sheet = by_sheet(marks);
    let sheets = class.groups.iter().map(|group| {
        let marks = by_sheet.remove(&group.bench.sheet_id).unwrap_or_default();
        scheme.marked(group.work.as_ref(), marks)
    });
    Ok(MarkingReport {
        rulings: ruling::list_standing(db, version.scheme_id).await?,
        sheets: sheets.collect(),
        class,
        version,
        points: scheme.points,
    })
}

/// The points that sheets are marked by.
#[derive(Debug)]
pub struct Scheme {
    /// In the version that holds.
    pub points: Vec<MarkingPoint>,
    /// As they were in earlier versions, where marks were given on those.
    earlier: HashMap<MarkingPointId, Point>,
}

impl Scheme {
    /// These points, with what earlier versions said of them where some of
    /// these marks were given.
    ///
    /// # Errors
    /// When a query fails.
    pub async fn of(
        db: &mut Connection,
        points: Vec<MarkingPoint>,
        marks: &[Mark],
    ) -> Result<Self, Error> {
        let is_present = |id| points.iter().any(|point| point.id == id);
        let versions: BTreeSet<SchemeVersionId> = marks
            .iter()
            .filter(|mark| !is_present(mark.marking_point_id))
            .map(|mark| mark.scheme_version_id)
            .collect();
        let mut earlier = HashMap::new();
        for version in versions {
            let points = scheme::list_points(db, version).await?;
            earlier.extend(points.into_iter().map(|point| (point.id, point.point)));
        }
        Ok(Self { points, earlier })
    }
}

/// Marks by the sheet that they are on.
#[must_use]
pub fn by_sheet(marks: Vec<Mark>) -> HashMap<SheetId, Vec<Mark>> {
    let mut by_sheet: HashMap<SheetId, Vec<Mark>> = HashMap::new();
    for mark in marks {
        by_sheet.entry(mark.sheet_id).or_default().push(mark);
    }
    by_sheet
}

impl Scheme {
    /// How each point of a sheet stands: the marks that were given on it, and
    /// what its work suggests.
    #[must_use]
    pub fn marked(&self, work: Option<&Work>, marks: Vec<Mark>) -> MarkedSheet {
        let asked: Vec<&Point> = self.points.iter().map(|point| &point.point).collect();
        let suggestions = match work {
            Some(work) => suggest(&asked, &work.sheet, &work.upheld()),
            None => vec![None; asked.len()],
        };
        let newest = work.map(|work| work.revision.id);
        let mut by_key: HashMap<i64, Mark> =
            marks.into_iter().map(|mark| (mark.key, mark)).collect();
        let standings = self.points.iter().zip(suggestions);
        let standings = standings.map(|(point, suggestion)| {
            let mark = by_key.remove(&point.key);
            let newest_mark = mark.as_ref().map(|mark| mark.id);
            let mark = mark.filter(|mark| mark.awarded.is_some());
            PointStanding {
                suggestion,
                is_on_earlier_revision: mark.as_ref().is_some_and(|m| m.revision_id != newest),
                is_of_earlier_version: mark.as_ref().is_some_and(|m| self.has_changed(point, m)),
                mark,
                newest: newest_mark,
            }
        });
        MarkedSheet {
            points: standings.collect(),
        }
    }

    /// Whether a point asks something else than when this mark was given.
    fn has_changed(&self, point: &MarkingPoint, mark: &Mark) -> bool {
        let then = self.earlier.get(&mark.marking_point_id);
        then.is_some_and(|then| *then != point.point)
    }
}
