//! What a class set has stored: what its files are made of, and what a file
//! is held against.

use analysis::method::Method;

use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::revision::{self, Entry, Revision};
use crate::db::{Connection, Error};
use crate::ids::ClassSetId;

/// A class set with the newest work of its benches.
#[derive(Debug)]
pub(super) struct StoredClass {
    pub(super) class_set: ClassSet,
    pub(super) method: Method,
    pub(super) benches: Vec<Bench>,
    /// Of each bench that stored anything.
    revisions: Vec<Revision>,
}

impl StoredClass {
    pub(super) async fn load(db: &mut Connection, id: ClassSetId) -> Result<Self, Error> {
        let class_set = class_set::get(db, id).await?;
        Ok(Self {
            method: class_set.method()?,
            class_set,
            benches: bench::list(db, id).await?,
            revisions: revision::list_latest(db, id).await?,
        })
    }

    pub(super) fn bench(&self, label: &str) -> Option<&Bench> {
        self.benches.iter().find(|bench| bench.label == label)
    }

    /// Returns what a bench stored last.
    pub(super) fn work(&self, bench: &Bench) -> Option<&Revision> {
        let mut revisions = self.revisions.iter();
        revisions.find(|revision| revision.sheet_id == bench.sheet_id)
    }

    /// Returns what each group stored last, by label.
    pub(super) fn entries(&self) -> impl Iterator<Item = (&str, &Entry)> {
        self.benches.iter().filter_map(|bench| {
            let work = self.work(bench)?;
            Some((bench.label.as_str(), &work.entry))
        })
    }
}
