//! The first markers' desk: all sheets of a class set, with everyone's marks.

use std::collections::{BTreeSet, HashMap};

use analysis::scheme::Point;

use super::{Desk, Mark, MarkedSheet, OnDesk, PointStanding, Whose, suggestions};
use crate::db::scheme::MarkingPoint;
use crate::db::{Connection, Error, class_set, mark, ruling, scheme};
use crate::ids::{ClassSetId, MarkingPointId, SchemeVersionId, SheetId};
use crate::report::Work;
use crate::report::class_set::groups;

/// Loads the sheets of a class set with their marks; with `only`, that sheet
/// alone.
///
/// # Errors
/// When a query fails, or there is no such class set.
pub async fn load(
    db: &mut Connection,
    id: ClassSetId,
    only: Option<SheetId>,
) -> Result<Desk, Error> {
    let class_set = class_set::get(db, id).await?;
    let version_id = scheme::get_of_class_set(db, &class_set).await?;
    let version = scheme::get_version(db, version_id).await?;
    let points = scheme::list_points(db, version_id).await?;
    let marks = mark::list_standing(db, &[id], version.scheme_id, None).await?;
    let scheme = Scheme::of(db, points, &marks).await?;
    let mut by_sheet = by_sheet(marks);
    let (groups, _) = groups(db, id, only).await?;
    let sheets = groups.into_iter().map(|group| {
        let sheet_id = group.bench.sheet_id;
        let marks = by_sheet.remove(&sheet_id).unwrap_or_default();
        OnDesk {
            sheet_id,
            label: group.bench.label.clone(),
            bench: Some(group.bench),
            marks: scheme.marked(group.work.as_ref(), marks),
            work: group.work,
        }
    });
    Ok(Desk {
        whose: Whose::First,
        rulings: ruling::list_standing(db, version.scheme_id).await?,
        sheets: sheets.collect(),
        class_set,
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
    /// Loads what earlier versions said of these points, where some of these
    /// marks were given on those.
    pub async fn of(
        db: &mut Connection,
        points: Vec<MarkingPoint>,
        marks: &[mark::Mark],
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

    /// Says how each point of a sheet stands: the marks that were given on it,
    /// and what its work suggests.
    #[must_use]
    pub fn marked(&self, work: Option<&Work>, marks: Vec<mark::Mark>) -> MarkedSheet {
        let newest = work.map(|work| work.revision.id);
        let mut by_key: HashMap<i64, mark::Mark> =
            marks.into_iter().map(|mark| (mark.key, mark)).collect();
        let standings = self.points.iter().zip(suggestions(&self.points, work));
        let standings = standings.map(|(point, suggestion)| {
            let mark = by_key.remove(&point.key);
            let given = mark.as_ref().filter(|mark| mark.awarded.is_some());
            PointStanding {
                suggestion,
                is_on_earlier_revision: given.is_some_and(|m| m.revision_id != newest),
                is_of_earlier_version: given.is_some_and(|m| self.has_changed(point, m)),
                newest: mark.as_ref().map(|mark| mark.id),
                mark: mark.and_then(Mark::first),
            }
        });
        MarkedSheet {
            points: standings.collect(),
        }
    }

    /// Says whether a point asks something else than when this mark was given.
    fn has_changed(&self, point: &MarkingPoint, mark: &mark::Mark) -> bool {
        let then = self.earlier.get(&mark.marking_point_id);
        then.is_some_and(|then| *then != point.point)
    }
}

impl Mark {
    /// Returns `None` when it was taken back.
    fn first(mark: mark::Mark) -> Option<Self> {
        Some(Self {
            awarded: mark.awarded?,
            why: mark.why(),
            settlement_id: mark.settlement_id,
            reason: mark.reason,
            by: mark.by,
            marked_at: mark.marked_at,
            revision_id: mark.revision_id,
            suggested: mark.suggested,
        })
    }
}

/// Sorts marks by the sheet that they are on.
#[must_use]
pub fn by_sheet(marks: Vec<mark::Mark>) -> HashMap<SheetId, Vec<mark::Mark>> {
    let mut by_sheet: HashMap<SheetId, Vec<mark::Mark>> = HashMap::new();
    for mark in marks {
        by_sheet.entry(mark.sheet_id).or_default().push(mark);
    }
    by_sheet
}
