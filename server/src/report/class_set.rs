//! A class set: every group's newest work, judged and compared.

use std::collections::HashMap;

use analysis::assess::Assessment;
use analysis::class_set::{ClassSummary, GroupStanding, summarise};
use analysis::method::Method;
use analysis::reading::copied::Question;
use analysis::reading::infer;

use super::inference;
use super::judge::Infer;
use super::{Work, heard};
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::decision::{self, Decision};
use crate::db::derived::Derived;
use crate::db::{Connection, Error, revision};
use crate::ids::{ClassSetId, SheetId};

/// A class set with all that its sheets say.
#[derive(Debug)]
pub struct ClassReport {
    pub class_set: ClassSet,
    pub method: Method,
    /// Its groups, by label.
    pub groups: Vec<GroupReport>,
    /// The groups that have handed in, compared.
    pub summary: ClassSummary,
    /// What there is to ask about readings, by places among the groups with
    /// work.
    pub questions: Vec<Question>,
    /// What the readings suggest, where it had to be made again, to be kept.
    pub to_keep: Option<Derived>,
}

#[derive(Debug)]
pub struct GroupReport {
    pub bench: Bench,
    /// Its newest work; `None` where nothing is stored.
    pub work: Option<Work>,
    /// How it stands in its class; `None` until it hands in.
    pub standing: Option<GroupStanding>,
}

/// Loads and judges a class set: one query a table, whatever the number of
/// groups.
///
/// # Errors
/// When a query fails, or there is no such class set.
pub async fn load(db: &mut Connection, id: ClassSetId) -> Result<ClassReport, Error> {
    load_with(db, id, infer).await
}

/// Returns the same, inferred in a way of the caller's own.
///
/// # Errors
/// As for [`load`].
pub async fn load_with(
    db: &mut Connection,
    id: ClassSetId,
    infer: Infer,
) -> Result<ClassReport, Error> {
    let class_set = class_set::get(db, id).await?;
    let (mut groups, said) = groups(db, id, None).await?;
    heard::pass_on(&mut groups, &said);
    let (questions, to_keep) = inference::fill(db, id, &mut groups, infer).await?;
    let summary = compare(&mut groups);
    Ok(ClassReport {
        method: class_set.method()?,
        class_set,
        groups,
        summary,
        questions,
        to_keep,
    })
}

/// Loads the groups of a class set, each judged by itself, and what was
/// decided on their slips; with `only`, the group of that sheet.
pub(super) async fn groups(
    db: &mut Connection,
    id: ClassSetId,
    only: Option<SheetId>,
) -> Result<(Vec<GroupReport>, Vec<(SheetId, Decision)>), Error> {
    let mut benches = bench::list(db, id).await?;
    benches.retain(|bench| only.is_none_or(|only| bench.sheet_id == only));
    let (newest, said) = match only {
        None => (
            revision::list_latest(db, id).await?,
            decision::list_in_class_set(db, id, None).await?,
        ),
        Some(only) => {
            let decided = decision::list(db, only).await?;
            (
                revision::find_latest(db, only).await?.into_iter().collect(),
                decided.into_iter().map(|one| (only, one)).collect(),
            )
        }
    };
    let mut revisions: HashMap<SheetId, _> = newest.into_iter().map(|r| (r.sheet_id, r)).collect();
    let mut decisions: HashMap<SheetId, Vec<Decision>> = HashMap::new();
    for (sheet, decision) in &said {
        decisions.entry(*sheet).or_default().push(decision.clone());
    }
    let groups = benches.into_iter().map(|bench| {
        let sheet = bench.sheet_id;
        let work = revisions
            .remove(&sheet)
            .and_then(|revision| Work::of(revision, decisions.remove(&sheet).unwrap_or_default()));
        GroupReport {
            bench,
            work,
            standing: None,
        }
    });
    Ok((groups.collect(), said))
}

/// Compares the groups that have handed in, each by its newest figures. A first
/// attempt in progress is shown but not counted: half a table would pass for
/// an outlier.
fn compare(groups: &mut [GroupReport]) -> ClassSummary {
    let mut handed_in: Vec<_> = groups
        .iter_mut()
        .filter(|group| group.bench.handed_in_at.is_some())
        .collect();
    let upheld: Vec<Assessment> = handed_in
        .iter()
        .filter_map(|group| group.work.as_ref().map(Work::upheld))
        .collect();
    let summary = summarise(&upheld.iter().collect::<Vec<_>>());
    let with_work = handed_in.iter_mut().filter(|group| group.work.is_some());
    for (group, standing) in with_work.zip(&summary.standings) {
        group.standing = Some(*standing);
    }
    summary
}
