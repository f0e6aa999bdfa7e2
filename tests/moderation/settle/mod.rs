//! Settling: which differences are open, who settles them, and that a mark
//! moves only where somebody said so.

mod again;
mod points;
mod who;

use std::collections::BTreeSet;

use server::db::mark;

use super::department::{Department, mark_all, marked};
use crate::support::{Browser, Part, Reply, pairs};

/// A round of which the second marks are shown, and the address of its page of
/// settling: Mrs Gill gave every point all its marks, and only she marked.
async fn shown() -> (Department, String, String) {
    let mut at = marked().await;
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    at.show(&round).await;
    let settle = format!("{round}/settle");
    (at, round, settle)
}

/// The numbers of the sheets on some part of the page.
pub(super) fn sheets(part: &Part) -> BTreeSet<i64> {
    part.all("article").iter().map(number_of).collect()
}

/// The number of a sheet on the page.
fn number_of(article: &Part) -> i64 {
    let number = article.attr("id").strip_prefix("sheet-");
    number.unwrap().parse().unwrap()
}

/// Where all other first marks of a sheet are said to stand.
pub(super) fn whole(page: &Part, sheet: i64) -> Part {
    let folded = format!("#sheet-{sheet} details");
    page.with(&folded, "All other first marks of this sheet stand")
}

/// The points that are open, in their order.
fn open_points(page: &Reply) -> Vec<Part> {
    let mut points = page.page().all(".marking-point");
    points.retain(|point| point.words().contains(": to settle."));
    points
}

/// A point as the page has it now.
fn anew(page: &Reply, point: &Part) -> Part {
    page.at(&format!("#{}", point.attr("id")))
}

/// The first or the second mark of a point.
fn mark(point: &Part, which: &str) -> String {
    let said = point.with("p", &format!("{which} mark ")).words();
    said.split([' ', ',']).nth(2).unwrap().to_owned()
}

/// Sends the form of a point or a sheet, as it was when the page was opened.
pub(super) async fn send(of: &Part, browser: &mut Browser, marks: &str, why: &str) -> Reply {
    let form = of.at("form");
    let mut made_from = form.fields();
    made_from.retain(|(name, _)| !["token", "marks", "reason"].contains(&name.as_str()));
    let boxes = [&pairs(&made_from)[..], &[("marks", marks), ("reason", why)]].concat();
    browser.post_staff(form.attr("action"), &boxes).await
}

/// The marks that stand in a class set, or in both.
async fn marks_in(at: &Department, sets: &[usize]) -> Vec<mark::Mark> {
    let sets: Vec<_> = sets.iter().map(|set| at.id(*set)).collect();
    let mut db = at.app.db().await;
    mark::list_standing(&mut db, &sets, at.scheme, None)
        .await
        .unwrap()
}
