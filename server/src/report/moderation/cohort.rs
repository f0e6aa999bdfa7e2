//! The cohort of a round: every sheet that was marked first in its class sets.

use std::collections::hash_map::Entry;
use std::collections::{BTreeSet, HashMap};

use super::name;
use crate::db::bench;
use crate::db::mark::{self, Mark};
use crate::db::round::{self, ClassSetOfRound, Round};
use crate::db::scheme::{self, MarkingPoint};
use crate::db::{Connection, Error, revision};
use crate::ids::{MarkId, RevisionId, SchemeVersionId, SheetId, StaffId};
use crate::report::desk::first::by_sheet;

/// All that was marked first.
#[derive(Debug)]
pub struct Cohort {
    /// The class sets of the round.
    pub class_sets: Vec<ClassSetOfRound>,
    /// The points of every version that they are marked with.
    pub points: HashMap<SchemeVersionId, Vec<MarkingPoint>>,
    /// The sheets that have a mark on every point, class set by class set and
    /// by label.
    pub sheets: Vec<FirstMarked>,
    /// Sheets with some marks, but not on every point: by name.
    pub unfinished: Vec<String>,
    /// Class sets that nobody has marked, or that are marked with another
    /// scheme, by their place.
    pub not_marked: Vec<usize>,
}

/// A sheet with its first marks.
#[derive(Clone, Debug)]
pub struct FirstMarked {
    /// Its name in draws.
    pub name: String,
    /// Its class set, by its place in the cohort.
    pub class_set: usize,
    /// Label of its group.
    pub label: String,
    /// The sheet.
    pub sheet_id: SheetId,
    /// As it is now; `None`: only paper.
    pub revision_id: Option<RevisionId>,
    /// What it is marked with.
    pub version_id: SchemeVersionId,
    /// The marks, in the order of the points.
    pub marks: Vec<Mark>,
    /// All of them together.
    pub total: i64,
    /// Whose marks these are.
    pub markers: BTreeSet<StaffId>,
    /// Everybody who had marked a point of it by then.
    pub hands: BTreeSet<StaffId>,
}

/// Loads the cohort of a round, as it was when `last` was the newest mark of
/// all; without that, as it is now.
///
/// # Errors
/// When a query fails.
pub async fn load(
    db: &mut Connection,
    round: &Round,
    last: Option<MarkId>,
) -> Result<Cohort, Error> {
    let mut cohort = Cohort {
        class_sets: round::list_class_sets(db, round.id).await?,
        points: HashMap::new(),
        sheets: Vec::new(),
        unfinished: Vec::new(),
        not_marked: Vec::new(),
    };
    for at in 0..cohort.class_sets.len() {
        let class_set = &cohort.class_sets[at];
        match class_set.scheme_version_id {
            Some(version) if class_set.scheme_id == Some(round.scheme_id) => {
                cohort.add(db, round, at, version, last).await?;
            }
            _ => cohort.not_marked.push(at),
        }
    }
    Ok(cohort)
}

impl Cohort {
    /// Adds the sheets of a class set.
    async fn add(
        &mut self,
        db: &mut Connection,
        round: &Round,
        at: usize,
        version: SchemeVersionId,
        last: Option<MarkId>,
    ) -> Result<(), Error> {
        let id = self.class_sets[at].id;
        if let Entry::Vacant(unread) = self.points.entry(version) {
            unread.insert(scheme::list_points(db, version).await?);
        }
        let points = &self.points[&version];
        let mut marks = by_sheet(mark::list_standing(db, id, round.scheme_id, last).await?);
        let hands = mark::list_hands(db, id, last).await?;
        let newest: HashMap<SheetId, RevisionId> = revision::list_latest_ids(db, id)
            .await?
            .into_iter()
            .collect();
        for bench in bench::list(db, id).await? {
            let marks = marks.remove(&bench.sheet_id).unwrap_or_default();
            let marks = in_order(points, marks);
            let name = name(id, &bench.label);
            if marks.is_empty() {
                continue;
            }
            if marks.len() < points.len() {
                self.unfinished.push(name);
                continue;
            }
            let of_sheet = hands.iter().filter(|(sheet, _)| *sheet == bench.sheet_id);
            self.sheets.push(FirstMarked {
                name,
                class_set: at,
                label: bench.label,
                sheet_id: bench.sheet_id,
                revision_id: newest.get(&bench.sheet_id).copied(),
                version_id: version,
                total: marks.iter().filter_map(|mark| mark.awarded).sum(),
                markers: marks.iter().map(|mark| mark.staff_id).collect(),
                hands: of_sheet.map(|(_, staff)| *staff).collect(),
                marks,
            });
        }
        Ok(())
    }
}

/// The marks on these points that were not taken back, in their order.
fn in_order(points: &[MarkingPoint], marks: Vec<Mark>) -> Vec<Mark> {
    let awarded = marks.into_iter().filter(|mark| mark.awarded.is_some());
    let mut by_key: HashMap<i64, Mark> = awarded.map(|mark| (mark.key, mark)).collect();
    let in_order = points.iter().filter_map(|point| by_key.remove(&point.key));
    in_order.collect()
}
