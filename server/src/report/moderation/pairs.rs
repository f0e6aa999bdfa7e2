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
use crate::ids::{ClassSetId, MarkId, SchemeId, SchemeVersionId, SheetId, StaffId};

/// The sample of a round with both marks.
#[derive(Clone, Debug)]
pub struct Pairs {
    /// The points of each version that a sheet of the sample is marked with.
    pub points: Points,
    /// The sheets, in the order in which they were marked.
    pub sheets: Vec<Pair>,
}

/// The points of each version of a scheme that sheets of a round are marked
/// with.
#[derive(Clone, Debug, Default)]
pub struct Points(HashMap<SchemeVersionId, Vec<MarkingPoint>>);

impl Points {
    /// Returns the points that a sheet is marked with.
    #[must_use]
    pub fn of(&self, sheet: &RoundSheet) -> &[MarkingPoint] {
        &self.0[&sheet.scheme_version_id]
    }

    /// Returns every point once, as the newest of these versions has it, in the
    /// order of the scheme.
    #[must_use]
    pub fn each(&self) -> Vec<&MarkingPoint> {
        let mut points: Vec<&MarkingPoint> = self.0.values().flatten().collect();
        points.sort_by_key(|point| (point.key, Reverse(point.id)));
        points.dedup_by_key(|point| point.key);
        points.sort_by_key(|point| (point.number, point.key));
        points
    }

    /// Returns what points are called, by their keys: these, and others.
    #[must_use]
    pub fn titles<'a>(
        &'a self,
        others: impl IntoIterator<Item = &'a MarkingPoint>,
    ) -> BTreeMap<i64, String> {
        let all = others.into_iter().chain(self.each());
        all.map(|point| (point.key, point.titled())).collect()
    }

    /// Returns the marks that a sheet can have, in the version that gives the
    /// most; `None` of no version.
    #[must_use]
    pub fn most(&self) -> Option<u32> {
        let versions = self.0.values();
        let marks = versions.map(|points| points.iter().map(|point| point.point.marks).sum());
        marks.max()
    }

    /// Loads those of a version, where it is not there yet.
    async fn load(&mut self, db: &mut Connection, version: SchemeVersionId) -> Result<(), Error> {
        if let Entry::Vacant(unread) = self.0.entry(version) {
            unread.insert(scheme::list_points(db, version).await?);
        }
        Ok(())
    }
}

impl MarkingPoint {
    /// Returns what markers call it: `4 The enlargement is used`.
    #[must_use]
    pub fn titled(&self) -> String {
        format!("{} {}", self.number, self.point.title)
    }
}

/// A sheet of the sample with both marks.
#[derive(Clone, Debug)]
pub struct Pair {
    /// The sheet; its version leads to its points.
    pub sheet: RoundSheet,
    /// The first mark of each point, as it was when the sample was drawn.
    pub first: Vec<Option<Mark>>,
    /// The second mark of each point.
    pub second: Vec<Option<SecondMark>>,
}

impl Pair {
    /// All first marks together; `None` where a point has none.
    #[must_use]
    pub fn first_total(&self) -> Option<i64> {
        let marks = self.first.iter();
        marks.map(|mark| mark.as_ref()?.awarded).sum()
    }

    /// Whether somebody gave its second marks or one of its first.
    #[must_use]
    pub fn is_by(&self, person: StaffId) -> bool {
        let mut first = self.first.iter().flatten();
        self.sheet.marker_id == Some(person) || first.any(|mark| mark.staff_id == person)
    }

    /// All second marks together; `None` where a point has none.
    #[must_use]
    pub fn second_total(&self) -> Option<i64> {
        let marks = self.second.iter();
        marks.map(|mark| mark.as_ref()?.awarded).sum()
    }

    /// By how much the second total is above the first; `None` where either
    /// is not complete.
    #[must_use]
    pub fn difference(&self) -> Option<i64> {
        Some(self.second_total()? - self.first_total()?)
    }
}

/// Loads both marks of every sheet of the sample. For nobody before they are
/// shown. Empty where nothing has been drawn.
pub async fn load(db: &mut Connection, round: &Round) -> Result<Pairs, Error> {
    let mut pairs = Pairs {
        points: Points::default(),
        sheets: Vec::new(),
    };
    let steps = round::list_steps(db, round.id).await?;
    let Some(drawn) = steps.iter().find(|taken| taken.step == Step::Drawn) else {
        return Ok(pairs);
    };
    let mut second: HashMap<_, SecondMark> = second_mark::list_in_round(db, round.id)
        .await?
        .into_iter()
        .filter(|mark| mark.awarded.is_some())
        .map(|mark| ((mark.round_sheet_id, mark.key), mark))
        .collect();
    let mut sheets = round_sheet::list(db, round.id).await?;
    sheets.retain(|sheet| sheet.kind == Kind::Sample);
    let class_sets: BTreeSet<ClassSetId> = sheets.iter().map(|sheet| sheet.class_set_id).collect();
    let class_sets = Vec::from_iter(class_sets);
    let last = Some(drawn.last_mark_id);
    let mut first = list_standing(db, &class_sets, round.scheme_id, last).await?;
    first.retain(|_, mark| mark.awarded.is_some());
    for sheet in sheets {
        pairs.points.load(db, sheet.scheme_version_id).await?;
        let keys = pairs.points.of(&sheet).iter().map(|point| point.key);
        let (of_first, of_second) = keys
            .map(|key| {
                (
                    first.remove(&(sheet.sheet_id, key)),
                    second.remove(&(sheet.id, key)),
                )
            })
            .unzip();
        pairs.sheets.push(Pair {
            sheet,
            first: of_first,
            second: of_second,
        });
    }
    Ok(pairs)
}

/// The marks that stand in these class sets, taken back or not, by sheet and
/// point.
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
