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

use crate::support::school::School;
use crate::support::stored_year::StoreYear;
use crate::support::{Browser, HEAD, PASSWORD, TestApp};

/// A year of four lessons a class, worn kits and all.
const SCHOOL: School = School {
    lessons: 4,
    groups: 6,
    ..School::WORN
};

/// Stores a year that starts in September of `starts`.
async fn store(app: &TestApp, school: &School, starts: i16) {
    let (school, seed) = (school.clone(), 1);
    let year = StoreYear {
        school,
        starts,
        seed,
    };
    app.act(Anyone, year).await;
}

/// A head of department with the worn year behind her.
async fn head(app: &TestApp) -> Browser<'_> {
    let head = app.teacher().await;
    store(app, &SCHOOL, 2026).await;
    head
}

/// A teacher whom she invites.
async fn colleague<'a>(app: &'a TestApp, head: &mut Browser<'_>) -> Browser<'a> {
    let page = head.post_staff("/staff/invite", &[]).await.expect(200);
    let address = page.between("<code>", "</code>");
    let link = address.strip_prefix("http://lab.test").unwrap();
    let mut colleague = app.browser();
    let account = [
        ("name", "Mx Gill"),
        ("password", PASSWORD),
        ("again", PASSWORD),
    ];
    colleague.post(link, &account).await.expect(303);
    colleague
}

/// The class sets, first lesson first.
async fn class_sets(app: &TestApp) -> Vec<ClassSetId> {
    let mut db = app.db().await;
    let mut listed = class_set::list(&mut db).await.unwrap();
    listed.reverse();
    listed.into_iter().map(|line| line.class_set.id).collect()
}

/// Sheets of which this slip counts: the class set and the label of each.
async fn sheets_with(head: &mut Browser<'_>, slip: &str) -> Vec<(String, String)> {
    let page = head
        .get(&format!("/year/sheets?slip={slip}"))
        .await
        .expect(200);
    let links = page.text.split("href=\"/class-sets/").skip(1);
    links
        .filter_map(|link| link.split('"').next()?.split_once("/sheets/"))
        .map(|(set, label)| (set.to_owned(), label.to_owned()))
        .collect()
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
