//! Settling: which differences are open, who settles them, and that a mark
//! moves only where somebody said so.

mod again;
mod points;
mod who;

use std::collections::BTreeSet;

use server::db::mark;

use super::department::{Department, hidden_in, mark_all, marked};
use crate::support::{Browser, Reply, TestApp};

/// A round of which the second marks are shown, and the address of its page of
/// settling: Mrs Gill gave every point all its marks, and only she marked.
async fn shown(app: &TestApp) -> (Department<'_>, String, String) {
    let mut at = marked(app).await;
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    at.show(&round).await;
    let settle = format!("{round}/settle");
    (at, round, settle)
}

/// The numbers of the sheets on a page.
pub(super) fn sheets(page: &str) -> BTreeSet<i64> {
    let articles = page.split("<article id=\"sheet-").skip(1);
    articles
        .map(|article| article.split('"').next().unwrap().parse().unwrap())
        .collect()
}

/// A form of the page: its sheet and point, and what it was made from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Form {
    sheet: String,
    point: String,
    newest: String,
    seen: String,
}

impl Form {
    /// The first form in some part of the page.
    fn first_in(part: &str) -> Self {
        Self {
            sheet: hidden_in(part, "sheet"),
            point: hidden_in(part, "point"),
            newest: hidden_in(part, "newest"),
            seen: hidden_in(part, "seen"),
        }
    }

    /// The one for a whole sheet.
    pub(super) fn whole(page: &str, sheet: i64) -> Self {
        let article = format!("<article id=\"sheet-{sheet}\"");
        let article = page.split(article.as_str()).nth(1).unwrap();
        let form = article.split("<summary>All other first marks").nth(1);
        Self {
            point: String::new(),
            ..Self::first_in(form.unwrap())
        }
    }

    /// The same form as the page has it now.
    fn anew(&self, page: &str) -> Self {
        Self::first_in(self.block(page))
    }

    /// Its point as the page has it.
    fn block<'a>(&self, page: &'a str) -> &'a str {
        let start = format!("id=\"sheet-{}-point-{}\"", self.sheet, self.point);
        page.split(start.as_str()).nth(1).unwrap()
    }

    /// Its first or second mark, as it stands on the page.
    fn mark<'a>(&self, page: &'a str, which: &str) -> &'a str {
        let start = format!("{which} mark ");
        let mark = self.block(page).split(start.as_str()).nth(1).unwrap();
        mark.split(',').next().unwrap()
    }

    pub(super) async fn send(
        &self,
        browser: &mut Browser<'_>,
        settle: &str,
        marks: &str,
        why: &str,
    ) -> Reply {
        let mut boxes = vec![
            ("sheet", self.sheet.as_str()),
            ("newest", &self.newest),
            ("seen", &self.seen),
            ("marks", marks),
            ("reason", why),
        ];
        if !self.point.is_empty() {
            boxes.push(("point", &self.point));
        }
        browser.post_staff(settle, &boxes).await
    }
}

/// The section of the page with this id, up to the next one.
pub(super) fn section<'a>(page: &'a str, id: &str) -> &'a str {
    let start = format!("<section aria-labelledby=\"{id}\"");
    let section = page.split(start.as_str()).nth(1).unwrap_or("");
    section.split("<section").next().unwrap()
}

/// The forms of points that are open, in their order.
fn open_forms(page: &str) -> Vec<Form> {
    let blocks = page.split("class=\"marking-point ").skip(1);
    let open = blocks.filter(|block| block.contains(": to settle."));
    open.map(Form::first_in).collect()
}

/// The marks that stand in a class set, or in both.
async fn marks_in(at: &Department<'_>, sets: &[usize]) -> Vec<mark::Mark> {
    let sets: Vec<_> = sets.iter().map(|set| at.id(*set)).collect();
    let mut db = at.app.db().await;
    mark::list_standing(&mut db, &sets, at.scheme, None)
        .await
        .unwrap()
}
