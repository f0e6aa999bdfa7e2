//! A department on a data file of its own, with as many class sets as a
//! benchmark needs.

#[path = "../../../tests/support/act.rs"]
pub(crate) mod act;
mod sheet;
#[path = "../../../tests/support/typed.rs"]
mod typed;

use analysis::method::Method;
use server::acts::{Act, Anyone, By, Doing, MakeClassSet, Told};
use server::clock::Clock;
use server::db::{Error, Store};
use server::ids::ClassSetId;
use tempfile::TempDir;
use tokio::task::JoinHandle;

use act::Join;

pub(crate) use sheet::full_sheet;

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
        let make = Make { class_sets, groups };
        let class_sets = act(&store, Anyone, make).await.unwrap();
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

/// Performs an act now.
pub(crate) async fn act<A: Act<B>, B: By>(
    store: &Store,
    by: B,
    what: A,
) -> Result<Told<A, B>, Error> {
    act::act(store, Clock::System.now(), by, what).await
}

/// Makes the teacher's account, and class sets of so many groups.
struct Make {
    class_sets: usize,
    groups: u8,
}

impl Act<Anyone> for Make {
    type Done = Vec<ClassSetId>;
    type Stop = Error;

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<Self::Done, Error> {
        let at = doing.at();
        let teacher = doing.perform(at, by, Join("Ms Fell")).await?;
        let new = MakeClassSet {
            class_name: "10B/Ph2".to_owned(),
            method: Method::RippleTank,
            held_on: jiff::civil::date(2026, 11, 24),
            groups: self.groups,
            is_live: true,
        };
        let mut made = Vec::with_capacity(self.class_sets);
        for _ in 0..self.class_sets {
            made.push(doing.perform(at, teacher, new.clone()).await?);
        }
        Ok(made)
    }
}
