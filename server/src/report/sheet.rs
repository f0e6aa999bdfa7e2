//! One sheet: its newest work judged, its notes, its history.

use super::Work;
use crate::db::annotation::{self, Annotation};
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::derived::Derived;
use crate::db::revision::{self, Past};
use crate::db::{Connection, Error, decision};
use crate::ids::ClassSetId;

/// A sheet with all that is known of it.
#[derive(Debug)]
pub struct SheetReport {
    pub class_set: ClassSet,
    /// Labels of all benches of the class set, in order.
    pub labels: Vec<String>,
    pub bench: Bench,
    /// The version asked for, else the newest; `None` where nothing is stored.
    pub work: Option<Work>,
    /// Notes, oldest first.
    pub annotations: Vec<Annotation>,
    /// Every version, newest first.
    pub past: Vec<Past>,
    /// What the readings of the class suggest, where it had to be made again,
    /// to be kept.
    pub to_keep: Option<Derived>,
}

impl SheetReport {
    /// Says whether its work is the newest there is.
    #[must_use]
    pub fn is_newest(&self) -> bool {
        let shown = self.work.as_ref().map(|work| work.revision.version);
        shown == self.past.first().map(|newest| newest.version)
    }
}

/// Loads and judges one sheet, at a version or as it is now.
///
/// Returns `None` when there is no such bench or version. As it is now, it is
/// judged with its class, so that it says what the summary says of it.
///
/// # Errors
/// When a query fails, or there is no such class set.
pub async fn load(
    db: &mut Connection,
    id: ClassSetId,
    label: &str,
    version: Option<i64>,
) -> Result<Option<SheetReport>, Error> {
    let found = match version {
        None => in_class(db, id, label).await?,
        Some(version) => at_version(db, id, label, version).await?,
    };
    let Some(mut report) = found else {
        return Ok(None);
    };
    report.annotations = annotation::list(db, report.bench.sheet_id).await?;
    report.past = revision::list_past(db, report.bench.sheet_id).await?;
    Ok(Some(report))
}

/// Returns the sheet as it is now, without its notes and its history.
async fn in_class(
    db: &mut Connection,
    id: ClassSetId,
    label: &str,
) -> Result<Option<SheetReport>, Error> {
    let class = super::class_set::load(db, id).await?;
    let labels = class.groups.iter().map(|g| g.bench.label.clone()).collect();
    let group = class.groups.into_iter().find(|g| g.bench.label == label);
    Ok(group.map(|group| SheetReport {
        class_set: class.class_set,
        labels,
        bench: group.bench,
        work: group.work,
        annotations: Vec::new(),
        past: Vec::new(),
        to_keep: class.to_keep,
    }))
}

/// Returns a version, without its notes and its history. Where it is the
/// newest, it is the sheet as it is now.
async fn at_version(
    db: &mut Connection,
    id: ClassSetId,
    label: &str,
    version: i64,
) -> Result<Option<SheetReport>, Error> {
    let class_set = class_set::get(db, id).await?;
    let benches = bench::list(db, id).await?;
    let labels = benches.iter().map(|bench| bench.label.clone()).collect();
    let Some(bench) = benches.into_iter().find(|bench| bench.label == label) else {
        return Ok(None);
    };
    if bench.version == version {
        return in_class(db, id, label).await;
    }
    let Some(revision) = revision::find_version(db, bench.sheet_id, version).await? else {
        return Ok(None);
    };
    let decisions = decision::list(db, bench.sheet_id).await?;
    Ok(Some(SheetReport {
        class_set,
        labels,
        bench,
        work: Work::of(revision, decisions),
        annotations: Vec::new(),
        past: Vec::new(),
        to_keep: None,
    }))
}
