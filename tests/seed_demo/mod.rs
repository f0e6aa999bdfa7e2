//! The demo as it is made: the program is run, its file is opened and judged.

mod marks;
mod rounds;
mod start;
mod this_term;
mod year_before;
mod years;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

use server::db::{Connection, class_set};
use server::report::Work;
use server::report::class_set::{ClassReport, load};

use crate::support::DEPARTMENT;

/// Class sets of this term: the newest.
const THIS_TERM: usize = 6;

fn seed_demo(data: &Path, more: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_seed-demo"))
        .arg("--data")
        .arg(data)
        .args(more)
        .output()
        .unwrap()
}

fn printed(output: &Output) -> String {
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A demo that the tests of this folder share, for reading only.
fn demo() -> &'static Path {
    static MADE: OnceLock<PathBuf> = OnceLock::new();
    MADE.get_or_init(|| {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("seed-demo");
        let _ = std::fs::remove_dir_all(&folder);
        std::fs::create_dir_all(&folder).unwrap();
        let data = folder.join("demo.db");
        printed(&seed_demo(&data, &["--make-only"]));
        data
    })
}

async fn open(data: &Path) -> Connection {
    let (store, _writing) = server::acts::open(data).await.unwrap();
    store.reader(DEPARTMENT).await.unwrap()
}

/// Every class set of a demo, newest first.
async fn class_sets(data: &Path) -> Vec<ClassReport> {
    let mut db = open(data).await;
    let mut reports = Vec::new();
    for listed in class_set::list(&mut db).await.unwrap() {
        reports.push(load(&mut db, listed.class_set.id).await.unwrap());
    }
    reports
}

/// All work that was stored in some class sets.
fn works(reports: &[ClassReport]) -> impl Iterator<Item = &Work> {
    let groups = reports.iter().flat_map(|report| &report.groups);
    groups.filter_map(|group| group.work.as_ref())
}

/// The class sets of this term.
async fn this_term() -> Vec<ClassReport> {
    let mut reports = class_sets(demo()).await;
    reports.truncate(THIS_TERM);
    reports
}

/// The class sets of the year before.
async fn year_before() -> Vec<ClassReport> {
    class_sets(demo()).await.split_off(THIS_TERM)
}
