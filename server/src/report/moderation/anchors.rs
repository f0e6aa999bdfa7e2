//! Sheets that might serve as anchors, and which of them the tool would take.

use std::collections::{BTreeSet, HashSet};

use analysis::moderation::anchors::{self, Standing};
use analysis::moderation::ticket::ticket;

use super::name;
use crate::db::round::{self, ClassSetOfRound, Marker, Round};
use crate::db::round_sheet::{Kind, NewRoundSheet};
use crate::db::scheme::{self, MarkingPoint};
use crate::db::{Connection, Error, bench, mark, revision, staff};
use crate::ids::{RevisionId, SchemeVersionId, SheetId};
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

/// Loads the sheets that might be anchors of a round: those of its class sets
/// and the others of its scheme.
///
/// # Errors
/// When a query fails.
pub async fn load(db: &mut Connection, round: &Round) -> Result<Pool, Error> {
    let newest = scheme::list_versions(db, round.scheme_id).await?;
    let version_id = newest.first().ok_or(sqlx::Error::RowNotFound)?.id;
    let points = scheme::list_points(db, version_id).await?;
    let markers = round::list_markers(db, round.id).await?;
    let in_round: HashSet<_> = round::list_class_sets(db, round.id)
        .await?
        .into_iter()
        .map(|class_set| class_set.id)
        .collect();
    let mut class_sets = Vec::new();
    for class_set in round::list_possible_class_sets(db, round.scheme_id).await? {
        let sheets = sheets(db, &class_set, &points, &markers).await?;
        class_sets.push(PoolClassSet {
            is_in_round: in_round.contains(&class_set.id),
            class_set,
            sheets,
        });
    }
    class_sets.sort_by_key(|class_set| !class_set.is_in_round);
    suggest(&mut class_sets, &round.seed);
    Ok(Pool {
        version_id,
        judged_by_checks: points
            .iter()
            .filter(|point| matches!(point.point.judged, analysis::scheme::Judged::ByCheck(_)))
            .map(|point| point.point.marks)
            .sum(),
        class_sets,
    })
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

async fn sheets(
    db: &mut Connection,
    class_set: &ClassSetOfRound,
    points: &[MarkingPoint],
    markers: &[Marker],
) -> Result<Vec<PoolSheet>, Error> {
    let benches = bench::list(db, class_set.id).await?;
    let hands = mark::list_hands(db, class_set.id, None).await?;
    let staff = staff::list(db).await?;
    let mut sheets = Vec::new();
    for revision in revision::list_latest(db, class_set.id).await? {
        let (sheet_id, revision_id) = (revision.sheet_id, revision.id);
        let bench = benches.iter().find(|bench| bench.sheet_id == sheet_id);
        let Some(bench) = bench.filter(|bench| bench.handed_in_at.is_some()) else {
            continue;
        };
        let work = Work::of(revision, Vec::new());
        let suggested = suggestions(points, work.as_ref());
        let hands: BTreeSet<_> = hands
            .iter()
            .filter(|(sheet, _)| *sheet == sheet_id)
            .map(|(_, staff)| *staff)
            .collect();
        let marked_by = staff.iter().filter(|person| hands.contains(&person.id));
        let known_to = markers.iter().filter(|marker| hands.contains(&marker.id));
        sheets.push(PoolSheet {
            label: bench.label.clone(),
            sheet_id,
            revision_id,
            suggested: suggested.iter().flatten().map(|s| s.marks).sum(),
            standing: None,
            marked_by: marked_by.map(|person| person.name.to_string()).collect(),
            known_to: known_to.map(|marker| marker.name.clone()).collect(),
        });
    }
    Ok(sheets)
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
