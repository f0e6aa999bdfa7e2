//! One sheet: its newest work judged, its notes, its history.

use super::Work;
use crate::db::annotation::{self, Annotation};
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::revision::{self, Revision};
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
    /// The newest work; `None` where nothing is stored.
    pub work: Option<Work>,
    /// Notes, oldest first.
    pub annotations: Vec<Annotation>,
    /// Every revision, oldest first.
    pub revisions: Vec<Revision>,
}

/// Loads and judges one sheet; `None` where there is no such bench.
///
/// # Errors
/// When a query fails, or there is no such class set.
pub async fn load(
    db: &mut Connection,
    id: ClassSetId,
    label: &str,
) -> Result<Option<SheetReport>, Error> {
    let class_set = class_set::get(db, id).await?;
    let benches = bench::list(db, id).await?;
    let labels = benches.iter().map(|bench| bench.label.clone()).collect();
    let Some(bench) = benches.into_iter().find(|bench| bench.label == label) else {
        return Ok(None);
    };
    let decisions = decision::list(db, bench.sheet_id).await?;
    let annotations = annotation::list(db, bench.sheet_id).await?;
    let revisions = revision::list(db, bench.sheet_id).await?;
    let work = revisions
        .last()
        .cloned()
        .and_then(|newest| Work::of(newest, decisions));
    Ok(Some(SheetReport {
        class_set,
        labels,
        bench,
        work,
        annotations,
        revisions,
    }))
}
