//! The year comparison, on a simulated school year.

mod classes;
mod files;
mod kept;
mod kits;
mod sheets;
mod slips;
mod start;
mod teachers;
mod walk;

use server::acts::{Anyone, DecideSlip};
use server::db::decision::{FlagKey, Verdict};
use server::db::{bench, class_set, revision};
use server::ids::ClassSetId;
use simulator::year::Department;

use crate::support::stored_year::StoreYear;
use crate::support::{Browser, HEAD, TestApp, teacher};

/// Every page of the year that is not about one thing. The last is for the
/// head of department alone.
const PAGES: [&str; 6] = [
    "/year",
    "/year/kits",
    "/year/slips",
    "/year/classes",
    "/year/sheets",
    "/year/teachers",
];

/// A year of four lessons a class, worn kits and all.
const SMALL: Department = Department {
    lessons: 4,
    groups: 6,
    ..Department::WORN
};

/// Stores a year that starts in September of `starts`.
async fn store(app: &TestApp, department: &Department, starts: i16) {
    let (department, seed) = (department.clone(), 1);
    let year = StoreYear {
        department,
        starts,
        seed,
    };
    app.act(Anyone, year).await;
}

/// A head of department with the worn year behind her.
async fn head() -> Browser {
    head_of(&SMALL).await
}

/// The same with a year of this department.
async fn head_of(department: &Department) -> Browser {
    let head = teacher().await;
    store(&head.app, department, 2026).await;
    head
}

/// The class sets, first lesson first.
async fn class_sets(app: &TestApp) -> Vec<ClassSetId> {
    let mut db = app.db().await;
    let mut listed = class_set::list(&mut db).await.unwrap();
    listed.reverse();
    listed.into_iter().map(|line| line.class_set.id).collect()
}

/// Sheets of which this slip counts: the class set and the label of each.
async fn sheets_with(head: &mut Browser, slip: &str) -> Vec<(String, String)> {
    let page = head.opens(&format!("/year/sheets?slip={slip}")).await;
    let links = page.page().all("a[href^='/class-sets/']");
    let sheets = links.iter().filter_map(|link| {
        let (set, label) = link.attr("href").split_once("/sheets/")?;
        Some((set.replace("/class-sets/", ""), label.to_owned()))
    });
    sheets.collect()
}

/// Says whether a slip is one, of all rows of a step on a group's sheet.
async fn decide(app: &TestApp, (set, label): (&str, &str), flag: (&str, &str), verdict: Verdict) {
    let class_set = ClassSetId(set.parse().unwrap());
    let mut db = app.db().await;
    let bench = bench::find(&mut db, class_set, label).await.unwrap();
    let sheet = bench.unwrap().sheet_id;
    let newest = revision::find_latest(&mut db, sheet).await.unwrap();
    drop(db);
    let decide = DecideSlip {
        class_set,
        label: label.to_owned(),
        revision: newest.unwrap().id,
        flag: FlagKey {
            step: flag.0.to_owned(),
            slip: flag.1.to_owned(),
            row_label: String::new(),
        },
        verdict,
        reason: "seen in their book".to_owned(),
    };
    app.act(HEAD, decide).await.unwrap();
}
