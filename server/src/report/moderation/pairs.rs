//! First and second marks of a round, side by side: what comparing and
//! settling start from.

use std::cmp::Reverse;
use std::collections::hash_map::Entry;
use std::collections::{BTreeMap, BTreeSet, HashMap};

use crate::db::mark::{self, Mark};
use crate::db::round::{self, Round, Step};
use crate::db::round_sheet::{self, Kind, RoundSheet};
use crate::db::scheme::{self, MarkingPoint};
use crate::db::second_mark::{self, SecondMark};
use crate::db::{Connection, Error};
use crate::ids::{ClassSetId, MarkId, SchemeId, SheetId, StaffId};

/// A sheet of the sample with both marks.
#[derive(Clone, Debug)]
pub struct Pair {
    pub sheet: RoundSheet,
    /// Each point of the version that it is marked with.
    pub points: Vec<PairPoint>,
}

/// A point of such a sheet.
#[derive(Clone, Debug)]
pub struct PairPoint {
    pub asked: MarkingPoint,
    /// The first mark, as it was when the sample was drawn.
    pub first: Option<Mark>,
    pub second: Option<SecondMark>,
}

impl PairPoint {
    /// Returns the first mark and the second.
    #[must_use]
    pub fn marks(&self) -> (Option<i64>, Option<i64>) {
        let first = self.first.as_ref().and_then(|mark| mark.awarded);
        (first, self.second.as_ref().and_then(|mark| mark.awarded))
    }
}

impl MarkingPoint {
    /// Returns what markers call it: `4 The enlargement is used`.
    #[must_use]
    pub fn titled(&self) -> String {
        format!("{} {}", self.number, self.point.title)
    }
}

impl Pair {
    /// Returns all first marks together. Returns `None` when a point has none.
    #[must_use]
    pub fn first_total(&self) -> Option<i64> {
        self.points.iter().map(|point| point.marks().0).sum()
    }

    /// Returns all second marks together. Returns `None` when a point has
    /// none.
    #[must_use]
    pub fn second_total(&self) -> Option<i64> {
        self.points.iter().map(|point| point.marks().1).sum()
    }

    /// Returns by how much the second total is above the first. Returns `None`
    /// when either is not complete.
    #[must_use]
    pub fn difference(&self) -> Option<i64> {
        Some(self.second_total()? - self.first_total()?)
    }

    /// Returns its first marks.
    pub fn first_marks(&self) -> impl Iterator<Item = &Mark> {
        self.points.iter().filter_map(|point| point.first.as_ref())
    }

    /// Says whether somebody gave its second marks or one of its first.
    #[must_use]
    pub fn is_by(&self, person: StaffId) -> bool {
        let is_first = self.first_marks().any(|mark| mark.staff_id == person);
        self.sheet.marker_id == Some(person) || is_first
    }
}

/// Returns every point of these sheets once, as the newest of their versions
/// has it, in the order of the scheme.
#[must_use]
pub fn each_point(pairs: &[Pair]) -> Vec<MarkingPoint> {
    let points = pairs.iter().flat_map(|pair| &pair.points);
    let mut points: Vec<&MarkingPoint> = points.map(|point| &point.asked).collect();
    points.sort_by_key(|point| (point.key, Reverse(point.id)));
    points.dedup_by_key(|point| point.key);
    points.sort_by_key(|point| (point.number, point.key));
    points.into_iter().cloned().collect()
}

/// Returns what points are called, by their keys.
pub fn titles<'a>(points: impl IntoIterator<Item = &'a MarkingPoint>) -> BTreeMap<i64, String> {
    let points = points.into_iter();
    points.map(|point| (point.key, point.titled())).collect()
}

/// Loads both marks of every sheet of the sample, in the order in which they
/// were marked. For nobody before they are shown. Empty where nothing has been
/// drawn.
pub async fn load(db: &mut Connection, round: &Round) -> Result<Vec<Pair>, Error> {
    let steps = round::list_steps(db, round.id).await?;
    let Some(drawn) = steps.iter().find(|taken| taken.step == Step::Drawn) else {
        return Ok(Vec::new());
    };
    let second = second_mark::list_in_round(db, round.id).await?;
    let second = second.into_iter().filter(|mark| mark.awarded.is_some());
    let mut second: HashMap<_, SecondMark> = second
        .map(|mark| ((mark.round_sheet_id, mark.key), mark))
        .collect();
    let mut sheets = round_sheet::list(db, round.id).await?;
    sheets.retain(|sheet| sheet.kind == Kind::Sample);
    let class_sets: BTreeSet<ClassSetId> = sheets.iter().map(|sheet| sheet.class_set_id).collect();
    let class_sets = Vec::from_iter(class_sets);
    let last = Some(drawn.last_mark_id);
    let mut first = list_standing(db, &class_sets, round.scheme_id, last).await?;
    first.retain(|_, mark| mark.awarded.is_some());
    let mut versions = HashMap::new();
    let mut pairs = Vec::new();
    for sheet in sheets {
        let version = sheet.scheme_version_id;
        if let Entry::Vacant(unread) = versions.entry(version) {
            unread.insert(scheme::list_points(db, version).await?);
        }
        let points = versions[&version].iter().map(|asked| PairPoint {
            asked: asked.clone(),
            first: first.remove(&(sheet.sheet_id, asked.key)),
            second: second.remove(&(sheet.id, asked.key)),
        });
        pairs.push(Pair {
            points: points.collect(),
            sheet,
        });
    }
    Ok(pairs)
}

/// Returns the marks that stand in these class sets, taken back or not, by
/// sheet and point.
pub(super) async fn list_standing(
    db: &mut Connection,
    class_sets: &[ClassSetId],
    scheme: SchemeId,
    last: Option<MarkId>,
) -> Result<HashMap<(SheetId, i64), Mark>, Error> {
    let marks = mark::list_standing(db, class_sets, scheme, last).await?;
    let marks = marks.into_iter();
    Ok(marks
        .map(|mark| ((mark.sheet_id, mark.key), mark))
        .collect())
}
