//! A draw: which sheets of a cohort are marked a second time, and by whom.

use std::collections::BTreeSet;

use analysis::moderation::allot::{self, allot};
use analysis::moderation::sample::{self, Rule};
use analysis::moderation::ticket::ticket;

use super::cohort::{self, Cohort, FirstMarked};
use crate::db::round::{self, Marker, Round};
use crate::db::round_sheet::{self, Kind, NewRoundSheet};
use crate::db::{Connection, Error, sample_size};
use crate::ids::{SheetId, StaffId};
use crate::secret::sha256;

/// What a draw gives.
#[derive(Debug)]
pub struct Draw {
    /// What it was drawn from.
    pub cohort: Cohort,
    /// The markers of the round.
    pub markers: Vec<Marker>,
    /// Sheets that were taken, in the order of their tickets.
    pub taken: Vec<Taken>,
    /// How many the department's table asks for; `None`: all of them.
    pub asked: Option<usize>,
    /// From so many it was drawn.
    pub of: usize,
    /// Sheets that were left out since they are anchors of the round.
    pub anchors: Vec<String>,
    /// Sheets that were left out since every marker of the round marked them
    /// first.
    pub without_marker: Vec<String>,
}

/// A sheet that was taken.
#[derive(Clone, Debug)]
pub struct Taken {
    /// Which of the cohort's sheets.
    pub at: usize,
    pub ticket: String,
    pub rule: Rule,
    /// Its second marker, by their place.
    pub marker: usize,
    /// Whether that is who teaches the class, since nobody else may have it.
    pub is_taught: bool,
}

impl Draw {
    /// Says whether the rules took more sheets than the table asks for.
    #[must_use]
    pub fn is_above_size(&self) -> bool {
        self.asked.is_some_and(|asked| self.taken.len() > asked)
    }

    #[must_use]
    pub fn sheet(&self, taken: &Taken) -> &FirstMarked {
        &self.cohort.sheets[taken.at]
    }

    /// Class sets of the cohort, by their places, none of whose sheets was
    /// taken.
    #[must_use]
    pub fn uncovered(&self) -> Vec<usize> {
        let covered: BTreeSet<usize> = self.taken.iter().map(|t| self.sheet(t).class_set).collect();
        let marked: BTreeSet<usize> = self.cohort.sheets.iter().map(|s| s.class_set).collect();
        marked.difference(&covered).copied().collect()
    }

    /// Tells one draw from another: the sheets, why each is taken, and their
    /// second markers.
    #[must_use]
    pub fn digest(&self) -> String {
        let taken = self.taken.iter();
        let told: Vec<String> = taken
            .map(|taken| {
                let (name, why) = (&self.sheet(taken).name, taken.rule.code());
                format!("{name} {} {why}", self.markers[taken.marker].id)
            })
            .collect();
        sha256(&told.join("\n"))
    }

    /// Lists what is stored of it.
    #[must_use]
    pub fn rows(&self, round: &Round) -> Vec<NewRoundSheet> {
        let taken = (1_i64..).zip(&self.taken);
        taken
            .map(|(place, taken)| {
                let sheet = self.sheet(taken);
                NewRoundSheet {
                    round_id: round.id,
                    sheet_id: sheet.sheet_id,
                    revision_id: sheet.revision_id,
                    scheme_version_id: sheet.version_id,
                    kind: Kind::Sample,
                    place,
                    why: taken.rule.code().to_owned(),
                    marker_id: Some(self.markers[taken.marker].id),
                }
            })
            .collect()
    }
}

/// Draws the sample of a round from its cohort as it is now.
pub async fn draw(db: &mut Connection, round: &Round) -> Result<Draw, Error> {
    let cohort = cohort::load(db, round, None).await?;
    let sizes = sample_size::list(db).await?;
    let mut markers = round::list_markers(db, round.id).await?;
    // By ticket too, so that nobody is first in every round.
    markers.sort_by_cached_key(|marker| ticket(&round.seed, &marker.name));
    let in_round = round_sheet::list(db, round.id).await?;
    let anchors: BTreeSet<SheetId> = in_round
        .iter()
        .filter(|sheet| sheet.kind == Kind::Anchor)
        .map(|sheet| sheet.sheet_id)
        .collect();
    let is_anchor = |sheet: &FirstMarked| anchors.contains(&sheet.sheet_id);
    let is_without = |sheet: &FirstMarked| without_marker(sheet, &markers);
    let left: Vec<usize> = (0..cohort.sheets.len())
        .filter(|at| !is_anchor(&cohort.sheets[*at]) && !is_without(&cohort.sheets[*at]))
        .collect();
    let named = |is: &dyn Fn(&FirstMarked) -> bool| -> Vec<String> {
        let sheets = cohort.sheets.iter().filter(|sheet| is(sheet));
        sheets.map(|sheet| sheet.name.clone()).collect()
    };
    let (anchors, without_marker) = (
        named(&is_anchor),
        named(&|sheet| !is_anchor(sheet) && is_without(sheet)),
    );
    // The whole cohort counts for the size, though anchors are not drawn.
    let asked = sample_size::for_cohort(&sizes, cohort.sheets.len());
    let taken = take(&cohort, &left, asked, &round.seed, &markers);
    Ok(Draw {
        taken,
        asked,
        of: left.len(),
        anchors,
        without_marker,
        markers,
        cohort,
    })
}

/// Says whether nobody is left to mark a sheet a second time: each of these
/// has had a hand in it.
#[must_use]
pub fn without_marker(sheet: &FirstMarked, markers: &[Marker]) -> bool {
    let mut markers = markers.iter();
    markers.all(|marker| sheet.hands.contains(&marker.id))
}

/// Draws from the sheets of the cohort that are left.
fn take(
    cohort: &Cohort,
    left: &[usize],
    asked: Option<usize>,
    seed: &str,
    markers: &[Marker],
) -> Vec<Taken> {
    let candidates: Vec<_> = left
        .iter()
        .map(|at| candidate(&cohort.sheets[*at]))
        .collect();
    let drawn = sample::draw(&candidates, asked, seed);
    let sheets: Vec<_> = drawn
        .iter()
        .map(|drawn| to_allot(cohort, &cohort.sheets[left[drawn.at]]))
        .collect();
    let people: Vec<i64> = markers.iter().map(|marker| marker.id.0).collect();
    let second = allot(&sheets, &people);
    let taken = drawn.into_iter().zip(&sheets).zip(second);
    taken
        .filter_map(|((drawn, sheet), marker)| {
            let marker = marker?;
            Some(Taken {
                at: left[drawn.at],
                ticket: drawn.ticket,
                rule: drawn.rule,
                marker,
                is_taught: sheet.taught_by.contains(&people[marker]),
            })
        })
        .collect()
}

fn candidate(sheet: &FirstMarked) -> sample::Candidate {
    sample::Candidate {
        name: sheet.name.clone(),
        class: i64::try_from(sheet.class_set).unwrap_or(i64::MAX),
        markers: sheet.markers.iter().map(|StaffId(id)| *id).collect(),
        total: sheet.total,
    }
}

fn to_allot(cohort: &Cohort, sheet: &FirstMarked) -> allot::Sheet {
    allot::Sheet {
        marked_by: sheet.hands.iter().map(|StaffId(id)| *id).collect(),
        taught_by: [cohort.class_sets[sheet.class_set].created_by.0].into(),
    }
}
