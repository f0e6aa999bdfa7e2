//! The sheets of a year: judged, with what people said of them.

use std::collections::{HashMap, HashSet};

use analysis::assess::assess;
use analysis::field::{Field, Role};
use analysis::reading::Cause;
use analysis::sheet::Sheet;
use analysis::slip::Kind;
use analysis::text::{folded, names_in};
use analysis::year::{self, Judgement, Made, kits};
use rayon::prelude::*;

use super::{YearFrame, version};
use crate::db::decision::{FlagKey, Verdict};
use crate::db::derived::Derived;
use crate::db::judgement::{self, RevisionJudged};
use crate::db::kit::Kit;
use crate::db::revision::Entry;
use crate::db::year::{self as rows, YearDecision, YearMark};
use crate::db::{Connection, Error};
use crate::ids::{ClassSetId, KitId, RevisionId, SheetId};
use crate::off_thread::off_thread;

/// A year's sheets that were handed in.
#[derive(Debug)]
pub struct Sheets {
    /// The year as the analysis takes it; its sheets by lesson and label.
    pub year: year::Year,
    /// Which group each of those sheets is of, in the same order.
    pub labels: Vec<String>,
    /// What each group wrote for its kit, in the same order.
    pub kits_as_written: Vec<String>,
    /// Judgements that had to be made: to be kept.
    pub to_keep: Vec<Derived>,
}

impl Sheets {
    /// Judges one kit, by its place in the frame. Returns `None` where there
    /// is no such kit.
    #[must_use]
    pub fn kit(&self, at: usize) -> Option<kits::Detail> {
        kits::detail(&self.year, &kits::compare(&self.year), at)
    }
}

/// Loads the sheets of a year, and judges those whose judgement is not kept.
pub async fn load(db: &mut Connection, frame: &YearFrame) -> Result<Sheets, Error> {
    let school_year = frame.school_year;
    let mut stored = rows::list_sheets(db, school_year, &version()).await?;
    stored.retain(|sheet| sheet.is_handed_in);
    let said = Said::of(rows::list_decisions(db, school_year).await?);
    let marks = rows::list_marks(db, school_year).await?;
    let marks: HashMap<SheetId, YearMark> = marks.into_iter().map(|m| (m.sheet_id, m)).collect();

    let missing = stored.iter().filter(|sheet| sheet.judged.is_none());
    let missing: Vec<RevisionId> = missing.map(|sheet| sheet.revision_id).collect();
    let newest: HashSet<RevisionId> = stored.iter().map(|sheet| sheet.revision_id).collect();
    let earlier = said.confirmed_on(&newest);
    let mut speeds = Speeds::default();
    let mut judged = judge(db, &missing).await?;
    let made: HashMap<RevisionId, &RevisionJudged> =
        judged.iter().map(|(id, j)| (*id, j)).collect();
    for sheet in &mut stored {
        if sheet.judged.is_none() {
            sheet.judged = made.get(&sheet.revision_id).map(|judged| (*judged).clone());
        }
    }
    drop(made);
    judged.extend(speeds.load(db, &earlier).await?);

    let lessons: HashMap<ClassSetId, usize> = frame
        .lessons
        .iter()
        .enumerate()
        .map(|(at, lesson)| (lesson.id, at))
        .collect();
    let labels_of_kits = Labels::of(&frame.kits);
    let mut sheets = Sheets {
        year: frame.without_sheets()?,
        labels: Vec::with_capacity(stored.len()),
        kits_as_written: Vec::with_capacity(stored.len()),
        to_keep: to_keep(judged),
    };
    for sheet in stored {
        let (Some(judged), Some(lesson)) = (sheet.judged, lessons.get(&sheet.class_set_id)) else {
            continue;
        };
        let decisions = said.on(sheet.id);
        let mark = marks.get(&sheet.id).and_then(|mark| {
            let of = &frame.lessons[*lesson];
            let full = of.full_marks.filter(|_| of.points == Some(mark.points))?;
            Some(mark.awarded as f64 / full as f64)
        });
        sheets.year.sheets.push(year::YearSheet {
            lesson: *lesson,
            kits: labels_of_kits.named(sheet.kit_id, &judged.kit),
            made: made_by(&judged, decisions),
            is_slipped: speeds.is_slipped(sheet.revision_id, &judged, decisions),
            judgement: judged.judgement,
            mark,
        });
        sheets.labels.push(sheet.label);
        sheets.kits_as_written.push(judged.kit);
    }
    Ok(sheets)
}

/// What people said, by sheet.
struct Said(HashMap<SheetId, Vec<YearDecision>>);

impl Said {
    fn of(decisions: Vec<YearDecision>) -> Self {
        let mut by_sheet: HashMap<SheetId, Vec<YearDecision>> = HashMap::new();
        for decision in decisions {
            by_sheet
                .entry(decision.sheet_id)
                .or_default()
                .push(decision);
        }
        Self(by_sheet)
    }

    fn on(&self, sheet: SheetId) -> &[YearDecision] {
        self.0.get(&sheet).map_or(&[], Vec::as_slice)
    }

    /// Returns the revisions on which slips in readings were confirmed, and
    /// which are not among the newest any more.
    fn confirmed_on(&self, newest: &HashSet<RevisionId>) -> Vec<RevisionId> {
        let mut revisions: Vec<_> = self
            .0
            .values()
            .flatten()
            .filter(|decision| confirmed_cause(decision).is_some_and(is_slip))
            .map(|decision| decision.revision_id)
            .filter(|revision| !newest.contains(revision))
            .collect();
        revisions.sort_unstable();
        revisions.dedup();
        revisions
    }
}

/// Returns the slips that a group made: those shown and not dismissed, and
/// what was confirmed of its readings. Each once, in order.
fn made_by(judged: &RevisionJudged, decisions: &[YearDecision]) -> Vec<Made> {
    let is_dismissed = |shown: &year::Shown| {
        let key = FlagKey {
            step: shown.step.name().to_owned(),
            slip: shown.slip.code().to_owned(),
            row_label: shown.row_label.clone(),
        };
        let mut dismissals = decisions.iter().filter(|d| d.verdict == Verdict::Dismissed);
        dismissals.any(|decision| decision.flag == key)
    };
    let upheld = judged
        .judgement
        .slips
        .iter()
        .filter(|shown| !is_dismissed(shown));
    let shown = upheld.map(|shown| Made::Shown(shown.slip));
    let confirmed = decisions
        .iter()
        .filter_map(confirmed_cause)
        .map(Made::Confirmed);
    let mut made: Vec<Made> = shown.chain(confirmed).collect();
    made.sort_unstable();
    made.dedup();
    made
}

/// Returns what was confirmed in the readings. Returns `None` for a dismissal,
/// and for a decision on a worked figure.
fn confirmed_cause(decision: &YearDecision) -> Option<Cause> {
    let is_reading = Field::named(&decision.flag.step)?.role() == Role::Reading;
    let is_confirmed = decision.verdict == Verdict::Confirmed;
    (is_reading && is_confirmed).then(|| Cause::from_code(&decision.flag.slip))?
}

fn is_slip(cause: Cause) -> bool {
    cause.kind() == Kind::Slip
}

/// The speeds of earlier revisions on which a slip was confirmed, m/s: a
/// sheet whose speed is still the same still has the slip in it.
#[derive(Default)]
struct Speeds(HashMap<RevisionId, Option<f64>>);

impl Speeds {
    /// Reads or makes them; hands back what was made.
    async fn load(
        &mut self,
        db: &mut Connection,
        revisions: &[RevisionId],
    ) -> Result<Vec<(RevisionId, RevisionJudged)>, Error> {
        if revisions.is_empty() {
            return Ok(Vec::new());
        }
        let kept = judgement::list(db, &version(), revisions).await?;
        let speed = |(id, judged): &(RevisionId, RevisionJudged)| (*id, judged.judgement.speed);
        self.0.extend(kept.iter().map(speed));
        let is_missing = |id: &&RevisionId| !self.0.contains_key(id);
        let missing: Vec<_> = revisions.iter().filter(is_missing).copied().collect();
        let made = judge(db, &missing).await?;
        self.0.extend(made.iter().map(speed));
        Ok(made)
    }

    fn is_slipped(
        &self,
        newest: RevisionId,
        judged: &RevisionJudged,
        decisions: &[YearDecision],
    ) -> bool {
        let same = |one: f64, other: f64| (one - other).abs() <= 1e-9 * one.abs();
        let mut slips = decisions
            .iter()
            .filter(|decision| confirmed_cause(decision).is_some_and(is_slip));
        slips.any(|decision| {
            let then = self.0.get(&decision.revision_id).copied().flatten();
            decision.revision_id == newest
                || then
                    .zip(judged.judgement.speed)
                    .is_some_and(|(then, now)| same(then, now))
        })
    }
}

/// The labels of the department's kits, ready to be looked for.
struct Labels {
    kits: Vec<(KitId, String)>,
}

impl Labels {
    fn of(kits: &[Kit]) -> Self {
        let kits = kits.iter().map(|kit| (kit.id, folded(&kit.label)));
        Self {
            kits: kits.collect(),
        }
    }

    /// Returns the kits that a sheet names, as places in the list: the one
    /// that it is tied to, and every other that is named in what was written
    /// (*String 2, Generator 3*).
    fn named(&self, tied: Option<KitId>, written: &str) -> Vec<usize> {
        let names = names_in(written);
        let kits = self.kits.iter().enumerate();
        kits.filter(|(_, (id, label))| Some(*id) == tied || names.contains(label))
            .map(|(at, _)| at)
            .collect()
    }
}

/// Revisions that are read, judged or written at once: what is in memory is
/// bounded, and no write keeps a hand-in waiting for long.
const BATCH: usize = 200;

/// Judges some revisions, away from the tasks that answer requests.
async fn judge(
    db: &mut Connection,
    revisions: &[RevisionId],
) -> Result<Vec<(RevisionId, RevisionJudged)>, Error> {
    let mut judged = Vec::with_capacity(revisions.len());
    for batch in revisions.chunks(BATCH) {
        let entries = judgement::list_entries(db, batch).await?;
        let judging = off_thread(move || {
            let readable = entries.into_par_iter();
            let judged = readable.filter_map(|(id, entry)| Some((id, judged_of(entry)?)));
            judged.collect::<Vec<_>>()
        });
        judged.extend(judging.await);
    }
    Ok(judged)
}

/// `None` where the boxes cannot be read, which the door keeps from happening
/// for anything stored through a page.
fn judged_of(entry: Entry) -> Option<RevisionJudged> {
    let sheet = Sheet::check(&entry.sheet).ok()?;
    Some(RevisionJudged {
        kit: entry.kit,
        judgement: Judgement::of(&sheet, &assess(&sheet)),
    })
}

/// Says that judgements are to be kept, so many at a time that no write keeps
/// a hand-in waiting for long.
fn to_keep(judged: Vec<(RevisionId, RevisionJudged)>) -> Vec<Derived> {
    let mut judged = judged.into_iter().peekable();
    let next = || {
        judged.peek()?;
        Some(Derived::Judgements {
            version: version(),
            judged: judged.by_ref().take(BATCH).collect(),
        })
    };
    std::iter::from_fn(next).collect()
}
