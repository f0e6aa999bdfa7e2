//! One sheet: its newest work judged, its notes, its history.

use super::Work;
use crate::db::annotation::{self, Annotation};
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::revision::{self, Past};
use crate::db::{Connection, Error, decision};
use crate::ids::ClassSetId;

/// A sheet with all that is known of it.
#[derive(Debug)]
pub struct SheetReport {
    /// Its class set.
    pub class_set: ClassSet,
    /// Labels of all benches of the class set, in order.
    pub labels: Vec<String>,
    /// Its bench.
    pub bench: Bench,
    /// The version asked for, else the newest; `None` where nothing is stored.
    pub work: Option<Work>,
    /// Notes, oldest first.
    pub annotations: Vec<Annotation>,
    /// Every version, newest first.
    pub past: Vec<Past>,
}

impl SheetReport {
    /// Whether its work is the newest there is.
    #[must_use]
    pub fn is_newest(&self) -> bool {
        let shown = self.work.as_ref().map(|work| work.revision.version);
        shown == self.past.first().map(|newest| newest.version)
    }
}

/// Loads and judges one sheet, at a version or as it is now; `None` where there
/// is no such bench or version.
///
/// # Errors
/// When a query fails, or there is no such class set.
pub async fn load(
    db: &mut Connection,
    id: ClassSetId,
    label: &str,
    version: Option<i64>,
) -> Result<Option<SheetReport>, Error> {
    let class_set = class_set::get(db, id).await?;
    let benches = bench::list(db, id).await?;
    let labels = benches.iter().map(|bench| bench.label.clone()).collect();
    let Some(bench) = benches.into_iter().find(|bench| bench.label == label) else {
        return Ok(None);
    };
    let revision = match version {
        None => revision::find_latest(db, bench.sheet_id).await?,
        Some(version) => {
            let Some(revision) = revision::find_version(db, bench.sheet_id, version).await? else {
                return Ok(None);
            };
            Some(revision)
        }
    };
    let decisions = decision::list(db, bench.sheet_id).await?;
    Ok(Some(SheetReport {
        annotations: annotation::list(db, bench.sheet_id).await?,
        past: revision::list_past(db, bench.sheet_id).await?,
        work: revision.and_then(|revision| Work::of(revision, decisions)),
        class_set,
        labels,
        bench,
    }))
}
