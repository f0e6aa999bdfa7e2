//! Sheets that might serve as anchors, and which of them the tool would take.

use std::collections::{BTreeSet, HashMap, HashSet};

use analysis::moderation::anchors::{self, Standing};
use analysis::moderation::ticket::ticket;
use analysis::scheme::Judged;

use super::name;
use crate::db::bench::{self, Bench};
use crate::db::revision::{self, Revision};
use crate::db::round::{self, ClassSetOfRound, Marker, Round};
use crate::db::round_sheet::{Kind, NewRoundSheet};
use crate::db::scheme::{self, MarkingPoint};
use crate::db::staff::{self, Staff};
use crate::db::{Connection, Error, mark};
use crate::ids::{ClassSetId, RevisionId, SchemeVersionId, SheetId, StaffId};
use crate::report::Work;
use crate::report::desk::suggestions;

/// A weak sheet, a middling and a strong one.
const ENOUGH: usize = 3;

/// What a head of department picks anchors from.
#[derive(Debug)]
pub struct Pool {
    /// The version that anchors are marked with: the scheme's newest, for all
    /// of them.
    pub version_id: SchemeVersionId,
    /// Marks that the checks of that version can suggest.
    pub judged_by_checks: u32,
    /// The class sets, those of the round first.
    pub class_sets: Vec<PoolClassSet>,
}

/// A class set with its sheets.
#[derive(Debug)]
pub struct PoolClassSet {
    /// The class set.
    pub class_set: ClassSetOfRound,
    /// Whether it is in the round.
    pub is_in_round: bool,
    /// Its sheets that are handed in, by label.
    pub sheets: Vec<PoolSheet>,
}

/// A sheet that might be an anchor.
#[derive(Debug)]
pub struct PoolSheet {
    /// Label of its group.
    pub label: String,
    /// The sheet.
    pub sheet_id: SheetId,
    /// As it is now.
    pub revision_id: RevisionId,
    /// What the sheet alone suggests, in marks: over all points that a check
    /// judges.
    pub suggested: u32,
    /// Why the tool would take it; `None`: it would not.
    pub standing: Option<Standing>,
    /// Names of those who marked it already: they know it.
    pub marked_by: Vec<String>,
    /// Names of the round's markers among them: to them it is not blind.
    pub known_to: Vec<String>,
}

/// What a pool is judged from.
#[derive(Debug)]
pub struct Stored {
    seed: String,
    version_id: SchemeVersionId,
    points: Vec<MarkingPoint>,
    markers: Vec<Marker>,
    staff: Vec<Staff>,
    in_round: HashSet<ClassSetId>,
    class_sets: Vec<ClassSetOfRound>,
    benches: HashMap<SheetId, (ClassSetId, Bench)>,
    hands: HashMap<SheetId, BTreeSet<StaffId>>,
    /// By label.
    revisions: Vec<Revision>,
}

/// Loads the sheets that might serve as anchors of a round: those that are
/// handed in, of every class set that its scheme fits.
pub async fn load(db: &mut Connection, round: &Round) -> Result<Stored, Error> {
    let newest = scheme::list_versions(db, round.scheme_id).await?;
    let version_id = newest.first().ok_or(sqlx::Error::RowNotFound)?.id;
    let in_round = round::list_class_sets(db, round.id).await?;
    let class_sets = round::list_possible_class_sets(db, round.scheme_id).await?;
    let ids: Vec<ClassSetId> = class_sets.iter().map(|set| set.id).collect();
    let mut hands: HashMap<SheetId, BTreeSet<StaffId>> = HashMap::new();
    for (sheet, staff) in mark::list_hands(db, &ids, None).await? {
        hands.entry(sheet).or_default().insert(staff);
    }
    let benches = bench::list_in(db, &ids).await?.into_iter();
    Ok(Stored {
        seed: round.seed.clone(),
        version_id,
        points: scheme::list_points(db, version_id).await?,
        markers: round::list_markers(db, round.id).await?,
        staff: staff::list(db).await?,
        in_round: in_round.into_iter().map(|set| set.id).collect(),
        class_sets,
        benches: benches
            .map(|(set, bench)| (bench.sheet_id, (set, bench)))
            .collect(),
        hands,
        revisions: revision::list_latest_in(db, &ids).await?,
    })
}

impl Stored {
    /// Judges every sheet, and suggests some.
    #[must_use]
    pub fn judge(mut self) -> Pool {
        let mut sheets: HashMap<ClassSetId, Vec<PoolSheet>> = HashMap::new();
        for revision in std::mem::take(&mut self.revisions) {
            if let Some((class_set, sheet)) = self.sheet(revision) {
                sheets.entry(class_set).or_default().push(sheet);
            }
        }
        let class_sets = self.class_sets.into_iter().map(|class_set| PoolClassSet {
            is_in_round: self.in_round.contains(&class_set.id),
            sheets: sheets.remove(&class_set.id).unwrap_or_default(),
            class_set,
        });
        let mut class_sets: Vec<PoolClassSet> = class_sets.collect();
        class_sets.sort_by_key(|class_set| !class_set.is_in_round);
        suggest(&mut class_sets, &self.seed);
        let by_check = |point: &&MarkingPoint| matches!(point.point.judged, Judged::ByCheck(_));
        let checked = self.points.iter().filter(by_check);
        Pool {
            version_id: self.version_id,
            judged_by_checks: checked.map(|point| point.point.marks).sum(),
            class_sets,
        }
    }

    /// A sheet with its class set, where it is handed in.
    fn sheet(&self, revision: Revision) -> Option<(ClassSetId, PoolSheet)> {
        let (sheet_id, revision_id) = (revision.sheet_id, revision.id);
        let (class_set, bench) = self.benches.get(&sheet_id)?;
        bench.handed_in_at?;
        let work = Work::of(revision, Vec::new());
        let suggested = suggestions(&self.points, work.as_ref());
        let hands = self.hands.get(&sheet_id);
        let is_hand = |id| hands.is_some_and(|hands| hands.contains(&id));
        let marked_by = self.staff.iter().filter(|person| is_hand(person.id));
        let known_to = self.markers.iter().filter(|marker| is_hand(marker.id));
        let sheet = PoolSheet {
            label: bench.label.clone(),
            sheet_id,
            revision_id,
            suggested: suggested.iter().flatten().map(|s| s.marks).sum(),
            standing: None,
            marked_by: marked_by.map(|person| person.name.to_string()).collect(),
            known_to: known_to.map(|marker| marker.name.clone()).collect(),
        };
        Some((*class_set, sheet))
    }
}

impl Pool {
    /// Those of its sheets whose names are chosen, as anchors of a round: in
    /// the order of their tickets, so that it tells nothing of what they are.
    #[must_use]
    pub fn rows(&self, round: &Round, chosen: &HashSet<String>) -> Vec<NewRoundSheet> {
        let mut sheets = Vec::new();
        for class_set in &self.class_sets {
            for sheet in &class_set.sheets {
                let name = name(class_set.class_set.id, &sheet.label);
                if chosen.contains(&name) {
                    sheets.push((ticket(&round.seed, &name), sheet));
                }
            }
        }
        sheets.sort_by(|a, b| a.0.cmp(&b.0));
        let placed = (1_i64..).zip(sheets);
        placed
            .map(|(place, (_, sheet))| NewRoundSheet {
                round_id: round.id,
                sheet_id: sheet.sheet_id,
                revision_id: Some(sheet.revision_id),
                scheme_version_id: self.version_id,
                kind: Kind::Anchor,
                place,
                why: sheet.standing.map_or("picked", |s| s.word()).to_owned(),
                marker_id: None,
            })
            .collect()
    }

    /// The names of the sheets that the tool would take.
    #[must_use]
    pub fn suggested(&self) -> HashSet<String> {
        let mut names = HashSet::new();
        for class_set in &self.class_sets {
            let taken = class_set.sheets.iter().filter(|s| s.standing.is_some());
            names.extend(taken.map(|sheet| name(class_set.class_set.id, &sheet.label)));
        }
        names
    }
}

/// Says which sheets the tool would take: of the round's class sets, or of the
/// others where those have none. Sheets that no marker of the round has had a
/// hand in come first, where there are enough of them.
fn suggest(class_sets: &mut [PoolClassSet], seed: &str) {
    let has_own = class_sets
        .iter()
        .any(|class_set| class_set.is_in_round && !class_set.sheets.is_empty());
    let is_left = |class_set: &PoolClassSet| !has_own || class_set.is_in_round;
    let unknown = class_sets
        .iter()
        .filter(|class_set| is_left(class_set))
        .flat_map(|class_set| &class_set.sheets)
        .filter(|sheet| sheet.known_to.is_empty());
    let has_unknown = unknown.count() >= ENOUGH;
    let mut places = Vec::new();
    let mut candidates = Vec::new();
    for (of, class_set) in class_sets.iter().enumerate() {
        if !is_left(class_set) {
            continue;
        }
        for (at, sheet) in class_set.sheets.iter().enumerate() {
            if has_unknown && !sheet.known_to.is_empty() {
                continue;
            }
            places.push((of, at));
            candidates.push(anchors::Candidate {
                name: name(class_set.class_set.id, &sheet.label),
                level: i64::from(sheet.suggested),
            });
        }
    }
    for (at, standing) in anchors::suggest(&candidates, seed) {
        let (of, at) = places[at];
        class_sets[of].sheets[at].standing = Some(standing);
    }
}
