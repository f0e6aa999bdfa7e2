//! What a group gets back: its sheet as it was, its marks, its teacher's
//! words. Nothing that is only inferred, unless the teacher confirmed it.

use std::collections::HashMap;

use analysis::field::{Field, Role};
use analysis::next::{Lost, Next, next};
use analysis::reading::Cause;
use analysis::slip::Kind;

use super::Work;
use super::desk::MarkedSheet;
use super::desk::first::{Scheme, by_sheet};
use super::flag::{self, FlagLine};
use crate::db::annotation::{self, Annotation};
use crate::db::bench::{self, Bench};
use crate::db::class_set::ClassSet;
use crate::db::decision::{self, Decision, Verdict};
use crate::db::release::Release;
use crate::db::scheme::{self, MarkingPoint};
use crate::db::{Connection, Error, mark, revision};
use crate::ids::SheetId;
use crate::words::Say;

/// What the groups of a class set get back.
#[derive(Debug)]
pub struct Feedback {
    /// The points that they were marked by.
    pub points: Vec<MarkingPoint>,
    /// One a bench, by label.
    pub sheets: Vec<FeedbackSheet>,
}

/// What one group gets back.
#[derive(Debug)]
pub struct FeedbackSheet {
    pub bench: Bench,
    /// Its sheet; `None` where nothing was stored.
    pub work: Option<Work>,
    pub marks: MarkedSheet,
    /// Notes for it, oldest first.
    pub notes: Vec<Annotation>,
    /// Where its teacher found a slip in its readings, confirmed and so said:
    /// labels of rows, blank for every row.
    pub found: Vec<String>,
    /// One thing to do next.
    pub next: Next,
}

/// Loads what would be given back now, or with a release what was given back
/// then.
pub async fn load(
    db: &mut Connection,
    class_set: &ClassSet,
    release: Option<&Release>,
) -> Result<Feedback, Error> {
    let version = match release {
        Some(release) => release.scheme_version_id,
        None => scheme::get_of_class_set(db, class_set).await?,
    };
    let scheme_id = scheme::get_version(db, version).await?.scheme_id;
    let points = scheme::list_points(db, version).await?;
    let id = class_set.id;
    let benches = bench::list(db, id).await?;
    let revisions = revision::list_at(db, id, release.map(|r| r.last_revision_id)).await?;
    let said = decision::list_in_class_set(db, id, release.map(|r| r.last_decision_id)).await?;
    let marks = mark::list_standing(db, &[id], scheme_id, release.map(|r| r.last_mark_id)).await?;
    let last_note = release.map(|r| (r.last_annotation_id, r.last_withdrawal_id));
    let notes = annotation::list_for_groups(db, id, last_note).await?;
    let scheme = Scheme::of(db, points, &marks).await?;
    let mut decisions: HashMap<SheetId, Vec<Decision>> = HashMap::new();
    for (sheet, decision) in said {
        decisions.entry(sheet).or_default().push(decision);
    }
    let mut revisions: HashMap<SheetId, _> =
        revisions.into_iter().map(|r| (r.sheet_id, r)).collect();
    let mut marks = by_sheet(marks);
    let sheets = benches.into_iter().map(|bench| {
        let sheet = bench.sheet_id;
        let decisions = decisions.remove(&sheet).unwrap_or_default();
        let found = found(&decisions);
        let work = revisions
            .remove(&sheet)
            .and_then(|revision| Work::of(revision, decisions));
        let marks = scheme.marked(work.as_ref(), marks.remove(&sheet).unwrap_or_default());
        let own = notes.iter().filter(|note| note.sheet_id == sheet);
        FeedbackSheet {
            next: what_next(work.as_ref(), &scheme.points, &marks),
            notes: own.cloned().collect(),
            found,
            bench,
            work,
            marks,
        }
    });
    Ok(Feedback {
        sheets: sheets.collect(),
        points: scheme.points,
    })
}

impl FeedbackSheet {
    /// Returns the first wrong turn that its own figures show and nobody
    /// dismissed, in a language. Returns `None` where there is none.
    #[must_use]
    pub fn first(&self, say: Say) -> Option<FlagLine> {
        let lines = flag::lines(say, self.work.as_ref()?, Kind::Slip);
        lines.into_iter().find(|line| !line.is_dismissed())
    }
}

/// Lists the rows where the teacher confirmed a slip in the readings. It gives
/// no cause, since what was confirmed may be one of two that cannot be told
/// apart. The box, a reading's, tells these slips from those in the working.
fn found(decisions: &[Decision]) -> Vec<String> {
    let confirmed = decisions
        .iter()
        .filter(|decision| decision.verdict == Verdict::Confirmed);
    let found = confirmed.filter_map(|decision| {
        let step = Field::named(&decision.flag.step)?;
        let cause = Cause::from_code(&decision.flag.slip)?;
        if step.role() != Role::Reading || cause.kind() != Kind::Slip {
            return None;
        }
        Some(decision.flag.row_label.clone())
    });
    found.collect()
}

fn what_next(work: Option<&Work>, points: &[MarkingPoint], marks: &MarkedSheet) -> Next {
    let lost = points
        .iter()
        .zip(&marks.points)
        .filter_map(|(point, standing)| {
            Some(Lost {
                judged: point.point.judged,
                marks: i64::from(point.point.marks) - standing.awarded()?,
            })
        });
    let lost: Vec<Lost> = lost.collect();
    let flags = work.map(|work| work.upheld().flags).unwrap_or_default();
    next(&flags, &lost)
}
