//! Whether anything of a year has changed, without a look at each of its
//! sheets.

use std::num::NonZeroUsize;
use std::sync::{Mutex, MutexGuard, PoisonError};

use lru::LruCache;

use crate::db::year::{Newest, get_newest, get_newest_of_file};
use crate::db::{Connection, Error};
use crate::ids::DepartmentId;

/// Years that are remembered.
const MOST_YEARS: NonZeroUsize = NonZeroUsize::new(1_000).expect("more than none");

/// The newest rows of the years that were looked at, each with the newest rows
/// that the whole file had then: while those are the same nothing was added to
/// the year either.
#[derive(Debug)]
pub struct NewestRows(Mutex<LruCache<Key, OfYear>>);

type Key = (DepartmentId, i64);

#[derive(Clone, Copy, Debug)]
struct OfYear {
    file_had: Newest,
    year_has: Newest,
}

impl Default for NewestRows {
    fn default() -> Self {
        Self(Mutex::new(LruCache::new(MOST_YEARS)))
    }
}

impl NewestRows {
    /// Returns the newest rows that bear on a year's sheets.
    pub(super) async fn of_year(
        &self,
        db: &mut Connection,
        school_year: i64,
    ) -> Result<Newest, Error> {
        // The file first: what is added meanwhile is then found the next time.
        let file_has = get_newest_of_file(db).await?;
        let key = (db.department(), school_year);
        if let Some(known) = self.known(key).filter(|known| known.file_had == file_has) {
            return Ok(known.year_has);
        }
        let year_has = get_newest(db, school_year).await?;
        let file_had = file_has;
        self.years().put(key, OfYear { file_had, year_has });
        Ok(year_has)
    }

    fn known(&self, key: Key) -> Option<OfYear> {
        self.years().get(&key).copied()
    }

    fn years(&self) -> MutexGuard<'_, LruCache<Key, OfYear>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
