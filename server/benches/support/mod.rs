//! A department on a data file of its own, with as many class sets as a
//! benchmark needs.

mod sheet;

use analysis::method::Method;
use server::clock::Clock;
use server::db::class_set::{self, NewClassSet};
use server::db::staff::{self, NewStaff, Role};
use server::db::{Error, Store, Writing};
use server::ids::ClassSetId;
use tempfile::TempDir;
use tokio::task::JoinHandle;

pub(crate) use sheet::full_sheet;

/// Name of the one teacher.
pub(crate) const TEACHER: &str = "Ms Fell";

/// Name of the data file.
pub(crate) const DATA: &str = "data.db";

/// An open data file with class sets in it.
pub(crate) struct Department {
    pub(crate) store: Store,
    pub(crate) class_sets: Vec<ClassSetId>,
    writing: JoinHandle<Result<(), Error>>,
    pub(crate) folder: TempDir,
}

impl Department {
    /// Makes so many class sets of `groups` groups, in a file that is written
    /// with at most `batch` writes to a commit.
    pub(crate) async fn open(class_sets: usize, groups: u8, batch: usize) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let data = folder.path().join(DATA);
        let (store, writing) = server::acts::open_with(&data, batch).await.unwrap();
        let make = store
            .writer()
            .run(move |db| Box::pin(make(db, class_sets, groups)));
        let class_sets = make.await.unwrap();
        Self {
            store,
            class_sets,
            writing,
            folder,
        }
    }

    /// Waits for the writer's last checkpoint, so that it does not fall into
    /// what is timed next. Every other clone of the store must be gone.
    pub(crate) async fn close(self) {
        drop(self.store);
        self.writing.await.unwrap().unwrap();
        self.folder.close().unwrap();
    }
}

async fn make(db: &mut Writing, class_sets: usize, groups: u8) -> Result<Vec<ClassSetId>, Error> {
    let made_at = Clock::System.now();
    let teacher = NewStaff {
        name: TEACHER.to_owned(),
        password_hash: "nobody signs in".to_owned(),
        role: Role::Teacher,
        made_at,
    };
    let new = NewClassSet {
        class_name: "10B/Ph2".to_owned(),
        method: Method::RippleTank,
        held_on: jiff::civil::date(2026, 11, 24),
        groups,
        is_live: true,
        created_by: staff::insert(db, &teacher).await?.unwrap(),
        made_at,
    };
    let mut made = Vec::with_capacity(class_sets);
    for _ in 0..class_sets {
        made.push(class_set::insert(db, &new).await?);
    }
    Ok(made)
}
