//! Sheets that might serve as anchors, and which of them the tool would take.

use std::collections::{HashMap, HashSet};

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
use crate::secret::sha256;

/// A weak sheet, a middling and a strong one.
const ENOUGH: usize = 3;

/// What a head of department picks anchors from.
#[derive(Clone, Debug)]
pub struct Pool {
    /// Of the facts that it was judged from.
    digest: String,
    /// The version that anchors are marked with: the scheme's newest, for all
    /// of them.
    version_id: SchemeVersionId,
    /// Marks that the checks of that version can suggest.
    pub judged_by_checks: u32,
    /// The class sets, those of the round first.
    pub class_sets: Vec<PoolClassSet>,
}

/// A class set with its sheets.
#[derive(Clone, Debug)]
pub struct PoolClassSet {
    pub class_set: ClassSetOfRound,
    /// Whether it is in the round.
    pub is_in_round: bool,
    /// Its sheets that are handed in, by label.
    pub sheets: Vec<PoolSheet>,
}

/// A sheet that might be an anchor.
#[derive(Clone, Debug)]
pub struct PoolSheet {
    /// Label of its group.
    pub label: String,
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

/// All that a pool hangs on, but for the sheets themselves, which their newest
/// revisions stand for.
#[derive(Debug)]
pub struct Facts {
    seed: String,
    version_id: SchemeVersionId,
    markers: Vec<Marker>,
    in_round: HashSet<ClassSetId>,
    class_sets: Vec<ClassSetOfRound>,
    benches: Vec<(ClassSetId, Bench)>,
    hands: Vec<(SheetId, StaffId)>,
    newest: Vec<(SheetId, RevisionId)>,
}

/// What a pool is judged from.
#[derive(Debug)]
pub struct Stored {
    facts: Facts,
    points: Vec<MarkingPoint>,
    staff: Vec<Staff>,
    /// By label.
    revisions: Vec<Revision>,
}

impl Facts {
    /// Loads those of a round: of the sheets of every class set that its scheme
    /// fits.
    pub async fn load(db: &mut Connection, round: &Round) -> Result<Self, Error> {
        let newest = scheme::list_versions(db, round.scheme_id).await?;
        let in_round = round::list_class_sets(db, round.id).await?;
        let class_sets = round::list_possible_class_sets(db, round.scheme_id).await?;
        let ids: Vec<ClassSetId> = class_sets.iter().map(|set| set.id).collect();
        let mut facts = Self {
            seed: round.seed.clone(),
            version_id: newest.first().ok_or(sqlx::Error::RowNotFound)?.id,
            markers: round::list_markers(db, round.id).await?,
            in_round: in_round.into_iter().map(|set| set.id).collect(),
            class_sets,
            benches: bench::list_in(db, &ids).await?,
            hands: mark::list_hands(db, &ids, None).await?,
            newest: revision::list_latest_ids(db, &ids).await?,
        };
        facts.newest.sort_unstable();
        facts
            .benches
            .retain(|(_, bench)| bench.handed_in_at.is_some());
        Ok(facts)
    }

    /// Tells them from others.
    fn digest(&self) -> String {
        let markers = self.markers.iter().map(|marker| marker.id);
        let benches = self.benches.iter();
        let benches = benches.map(|(set, bench)| (set, bench.sheet_id, &bench.label));
        sha256(&format!(
            "{} {:?} {:?} {:?} {:?}",
            self.version_id,
            markers.collect::<Vec<_>>(),
            benches.collect::<Vec<_>>(),
            self.hands,
            self.newest
        ))
    }
}

/// Loads the sheets that might serve as anchors of a round: those that are
/// handed in, of every class set that its scheme fits.
pub async fn load(db: &mut Connection, round: &Round) -> Result<Stored, Error> {
    let facts = Facts::load(db, round).await?;
    let ids: Vec<ClassSetId> = facts.class_sets.iter().map(|set| set.id).collect();
    Ok(Stored {
        points: scheme::list_points(db, facts.version_id).await?,
        staff: staff::list(db).await?,
        revisions: revision::list_latest_in(db, &ids).await?,
        facts,
    })
}

impl Stored {
    /// Judges every sheet, and suggests some.
    #[must_use]
    pub fn judge(self) -> Pool {
        let facts = self.facts;
        let digest = facts.digest();
        let benches = facts.benches.iter();
        let benches = benches.map(|(set, bench)| (bench.sheet_id, (*set, bench)));
        let benches: HashMap<SheetId, (ClassSetId, &Bench)> = benches.collect();
        let mut sheets: HashMap<ClassSetId, Vec<PoolSheet>> = HashMap::new();
        for revision in self.revisions {
            let Some((class_set, bench)) = benches.get(&revision.sheet_id) else {
                continue;
            };
            let (sheet_id, revision_id) = (revision.sheet_id, revision.id);
            let work = Work::of(revision, Vec::new());
            let suggested = suggestions(&self.points, work.as_ref());
            let is_hand = |id: StaffId| facts.hands.binary_search(&(sheet_id, id)).is_ok();
            let marked_by = self.staff.iter().filter(|person| is_hand(person.id));
            let known_to = facts.markers.iter().filter(|marker| is_hand(marker.id));
            sheets.entry(*class_set).or_default().push(PoolSheet {
                label: bench.label.clone(),
                sheet_id,
                revision_id,
                suggested: suggested.iter().flatten().map(|s| s.marks).sum(),
                standing: None,
                marked_by: marked_by.map(|person| person.name.to_string()).collect(),
                known_to: known_to.map(|marker| marker.name.clone()).collect(),
            });
        }
        let class_sets = facts.class_sets.into_iter().map(|class_set| PoolClassSet {
            is_in_round: facts.in_round.contains(&class_set.id),
            sheets: sheets.remove(&class_set.id).unwrap_or_default(),
            class_set,
        });
        let mut class_sets: Vec<PoolClassSet> = class_sets.collect();
        class_sets.sort_by_key(|class_set| !class_set.is_in_round);
        suggest(&mut class_sets, &facts.seed);
        let by_check = |point: &&MarkingPoint| matches!(point.point.judged, Judged::ByCheck(_));
        let checked = self.points.iter().filter(by_check);
        Pool {
            digest,
            version_id: facts.version_id,
            judged_by_checks: checked.map(|point| point.point.marks).sum(),
            class_sets,
        }
    }
}

impl Pool {
    /// Says whether it was judged from these.
    #[must_use]
    pub fn is_of(&self, facts: &Facts) -> bool {
        self.digest == facts.digest()
    }

    fn named(&self) -> impl Iterator<Item = (String, &PoolSheet)> {
        let sets = self.class_sets.iter();
        sets.flat_map(|set| set.sheets.iter().map(|sheet| (set.name(sheet), sheet)))
    }

    /// Those of its sheets whose names are chosen, as anchors of a round: in
    /// the order of their tickets, so that it tells nothing of what they are.
    #[must_use]
    pub fn rows(&self, round: &Round, chosen: &HashSet<String>) -> Vec<NewRoundSheet> {
        let named = self.named().filter(|(name, _)| chosen.contains(name));
        let tickets = named.map(|(name, sheet)| (ticket(&round.seed, &name), sheet));
        let mut sheets: Vec<_> = tickets.collect();
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

    /// Returns the names of the sheets that the tool would take.
    #[must_use]
    pub fn suggested(&self) -> HashSet<String> {
        let taken = self.named().filter(|(_, sheet)| sheet.standing.is_some());
        taken.map(|(name, _)| name).collect()
    }
}

impl PoolClassSet {
    /// Returns the name of one of its sheets in draws.
    #[must_use]
    pub fn name(&self, sheet: &PoolSheet) -> String {
        name(self.class_set.id, &sheet.label)
    }
}

/// Says which sheets the tool would take: of the round's class sets, or of the
/// others where those have none. Sheets that no marker of the round has had a
/// hand in come first, where there are enough of them.
fn suggest(class_sets: &mut [PoolClassSet], seed: &str) {
    let mut sets = class_sets.iter();
    let has_own = sets.any(|of| of.is_in_round && !of.sheets.is_empty());
    let mut left: Vec<(String, &mut PoolSheet)> = Vec::new();
    for of in class_sets {
        if of.is_in_round || !has_own {
            let sheets = of.sheets.iter_mut();
            left.extend(sheets.map(|sheet| (name(of.class_set.id, &sheet.label), sheet)));
        }
    }
    let unknown = left.iter().filter(|(_, sheet)| sheet.known_to.is_empty());
    if unknown.count() >= ENOUGH {
        left.retain(|(_, sheet)| sheet.known_to.is_empty());
    }
    let candidates = left.iter().map(|(name, sheet)| anchors::Candidate {
        name: name.clone(),
        level: i64::from(sheet.suggested),
    });
    for (at, standing) in anchors::suggest(&candidates.collect::<Vec<_>>(), seed) {
        left[at].1.standing = Some(standing);
    }
}
