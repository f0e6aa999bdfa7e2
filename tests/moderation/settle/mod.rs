//! Settling: which differences are open, who settles them, and that a mark
//! moves only where somebody said so.

mod again;
mod points;
mod who;

use std::collections::BTreeSet;

use server::db::mark;

use super::department::{Department, mark_all};
use crate::support::{Browser, Part, Reply};

/// A round of which the second marks are shown: Mrs Gill gave every point
/// all its marks, and only she marked.
async fn shown(at: &mut Department<'_>) -> String {
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    at.head.does(&format!("{round}/show"), &[]).await;
    round
}

/// The numbers of the sheets in a part of the page.
fn sheets(part: &Part) -> BTreeSet<i64> {
    let articles = part.all("article");
    let number = |article: &Part| article.attr("id").replace("sheet-", "").parse();
    articles.iter().map(|one| number(one).unwrap()).collect()
}

/// The form that lets all other first marks of a sheet stand.
fn whole(page: &Reply, sheet: i64) -> Part {
    page.at(&format!("#sheet-{sheet}"))
        .with("details", "All other first marks of this sheet stand")
        .at("form")
}

/// The forms of points that are open, in their order.
fn open_forms(page: &Reply) -> Vec<Part> {
    let mut open = page.page().all(".marking-point");
    open.retain(|block| block.words().contains(": to settle."));
    open.iter().map(|block| block.at("form")).collect()
}

/// Where the point of a form stands on the page.
fn place(form: &Part) -> String {
    let (sheet, point) = (form.value("sheet"), form.value("point"));
    format!("sheet-{sheet}-point-{point}")
}

/// The point of a form as the page has it now.
fn block(page: &Reply, form: &Part) -> Part {
    page.at(&format!("#{}", place(form)))
}

/// The first or second mark of a point on the page, as it stands there.
fn mark_on(page: &Reply, form: &Part, which: &str) -> String {
    let words = block(page, form)
        .with("p", &format!("{which} mark "))
        .words();
    let (mark, _) = words.split_once(',').unwrap();
    mark.rsplit(' ').next().unwrap().to_owned()
}

async fn settle(browser: &mut Browser<'_>, form: &Part, marks: &str, reason: &str) -> Reply {
    let boxes = [("marks", marks), ("reason", reason)];
    browser.fill(form, &boxes).await
}

async fn marks_in(at: &Department<'_>, set: usize) -> Vec<mark::Mark> {
    let mut db = at.app.db().await;
    mark::list_standing(&mut db, &[at.id(set)], at.scheme, None)
        .await
        .unwrap()
}
