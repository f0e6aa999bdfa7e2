//! The cohort of a round: every sheet that was marked first in its class sets.

use std::collections::hash_map::Entry;
use std::collections::{BTreeSet, HashMap};

use super::name;
use crate::db::bench;
use crate::db::mark::{self, Mark};
use crate::db::round::{self, ClassSetOfRound, Round};
use crate::db::scheme::{self, MarkingPoint};
use crate::db::{Connection, Error, revision};
use crate::ids::{ClassSetId, MarkId, RevisionId, SchemeVersionId, SheetId, StaffId};
use crate::report::desk::first::by_sheet;

/// All that was marked first.
#[derive(Debug)]
pub struct Cohort {
    /// The class sets of the round.
    pub class_sets: Vec<ClassSetOfRound>,
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
    pub sheet_id: SheetId,
    /// As it is now; `None`: only paper.
    pub revision_id: Option<RevisionId>,
    pub version_id: SchemeVersionId,
    /// Its marks together.
    pub total: i64,
    /// Whose marks these are.
    pub markers: BTreeSet<StaffId>,
    /// Everybody who had marked a point of it by then.
    pub hands: BTreeSet<StaffId>,
}

/// Loads the cohort of a round, as it was when `last` was the newest mark of
/// all; without that, as it is now.
pub async fn load(
    db: &mut Connection,
    round: &Round,
    last: Option<MarkId>,
) -> Result<Cohort, Error> {
    let class_sets = round::list_class_sets(db, round.id).await?;
    let (mut marked, mut not_marked) = (HashMap::new(), Vec::new());
    let mut points = HashMap::new();
    for (at, set) in class_sets.iter().enumerate() {
        let version = set.scheme_version_id;
        let version = version.filter(|_| set.scheme_id == Some(round.scheme_id));
        let Some(version) = version else {
            not_marked.push(at);
            continue;
        };
        marked.insert(set.id, (at, version));
        if let Entry::Vacant(unread) = points.entry(version) {
            unread.insert(scheme::list_points(db, version).await?);
        }
    }
    let ids: Vec<ClassSetId> = marked.keys().copied().collect();
    let mut marks = by_sheet(mark::list_standing(db, &ids, round.scheme_id, last).await?);
    let newest: HashMap<_, _> = revision::list_latest_ids(db, &ids)
        .await?
        .into_iter()
        .collect();
    let mut hands: HashMap<SheetId, BTreeSet<StaffId>> = HashMap::new();
    for (sheet, staff) in mark::list_hands(db, &ids, last).await? {
        hands.entry(sheet).or_default().insert(staff);
    }
    let mut benches = bench::list_in(db, &ids).await?;
    benches.sort_by_key(|(id, _)| marked[id].0);
    let (mut sheets, mut unfinished) = (Vec::new(), Vec::new());
    for (id, bench) in benches {
        let ((class_set, version_id), sheet_id) = (marked[&id], bench.sheet_id);
        let (name, points) = (name(id, &bench.label), &points[&version_id]);
        let marks = in_order(points, marks.remove(&sheet_id).unwrap_or_default());
        if marks.is_empty() {
            continue;
        }
        if marks.len() < points.len() {
            unfinished.push(name);
            continue;
        }
        sheets.push(FirstMarked {
            name,
            class_set,
            label: bench.label,
            sheet_id,
            revision_id: newest.get(&sheet_id).copied(),
            version_id,
            total: marks.iter().filter_map(|mark| mark.awarded).sum(),
            markers: marks.iter().map(|mark| mark.staff_id).collect(),
            hands: hands.remove(&sheet_id).unwrap_or_default(),
        });
    }
    Ok(Cohort {
        class_sets,
        sheets,
        unfinished,
        not_marked,
    })
}

/// Returns the marks on these points that were not taken back, in their order.
fn in_order(points: &[MarkingPoint], marks: Vec<Mark>) -> Vec<Mark> {
    let awarded = marks.into_iter().filter(|mark| mark.awarded.is_some());
    let mut by_key: HashMap<i64, Mark> = awarded.map(|mark| (mark.key, mark)).collect();
    let in_order = points.iter().filter_map(|point| by_key.remove(&point.key));
    in_order.collect()
}
