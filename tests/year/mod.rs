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

use server::db::class_set;
use server::ids::{ClassSetId, SheetId};

use crate::support::school::School;
use crate::support::stored_year;
use crate::support::{Browser, PASSWORD, TestApp};

/// A year of four lessons a class, worn kits and all.
const SCHOOL: School = School {
    lessons: 4,
    groups: 6,
    ..School::WORN
};

/// Stores a year that starts in September of `starts`.
async fn store(app: &TestApp, school: &School, starts: i16) {
    let school = school.clone();
    let stored = app
        .store
        .writer()
        .run(move |db| Box::pin(async move { stored_year::store(db, &school, starts, 1).await }));
    stored.await.unwrap();
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
    let mut db = app.store.reader(server::ids::DEPARTMENT).await.unwrap();
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

/// The sheet of a group.
async fn sheet_id(app: &TestApp, set: &str, label: &str) -> SheetId {
    let sql = "SELECT sheet.id FROM sheet JOIN bench ON bench.id = sheet.bench_id
               WHERE class_set_id = $1 AND label = $2";
    sqlx::query_scalar(sql)
        .bind(set.parse::<i64>().unwrap())
        .bind(label)
        .fetch_one(&mut app.sql().await)
        .await
        .unwrap()
}
