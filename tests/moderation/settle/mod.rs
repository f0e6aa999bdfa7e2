//! Settling: which differences are open, who settles them, and that a mark
//! moves only where somebody said so.

mod again;
mod points;
mod who;

use std::collections::BTreeSet;

use server::db::mark;

use super::department::{Department, mark_all};
use crate::support::{Browser, Reply};

/// A round of which the second marks are shown: Mrs Gill gave every point
/// all its marks, and only she marked.
async fn shown(at: &mut Department<'_>) -> String {
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    at.head
        .post_staff(&format!("{round}/show"), &[])
        .await
        .expect(303);
    round
}

/// The numbers of the sheets on a page.
fn sheets(page: &str) -> BTreeSet<i64> {
    let articles = page.split("<article id=\"sheet-").skip(1);
    articles
        .map(|article| article.split('"').next().unwrap().parse().unwrap())
        .collect()
}

/// A form of the page: its sheet and point, and what it was made from.
#[derive(Clone, Debug, PartialEq)]
struct Form {
    sheet: String,
    point: String,
    newest: String,
    seen: String,
}

impl Form {
    /// The first form in some part of the page.
    fn first_in(part: &str) -> Self {
        let hidden = |name: &str| {
            let start = format!("name=\"{name}\" value=\"");
            let rest = part.split(start.as_str()).nth(1).unwrap_or("");
            rest.split('"').next().unwrap().to_owned()
        };
        Self {
            sheet: hidden("sheet"),
            point: hidden("point"),
            newest: hidden("newest"),
            seen: hidden("seen"),
        }
    }

    /// The one for a whole sheet.
    fn whole(page: &str, sheet: i64) -> Self {
        let article = format!("<article id=\"sheet-{sheet}\"");
        let article = page.split(article.as_str()).nth(1).unwrap();
        let article = article.split("</article>").next().unwrap();
        let form = article
            .split("<summary>All other first marks")
            .nth(1)
            .unwrap();
        Self {
            point: String::new(),
            ..Self::first_in(form)
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

    async fn send(&self, browser: &mut Browser<'_>, round: &str, marks: &str, why: &str) -> Reply {
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
        browser.post_staff(&format!("{round}/settle"), &boxes).await
    }
}

/// The first or second mark of a point on the page, as it stands there.
fn mark_on(page: &str, form: &Form, which: &str) -> String {
    let start = format!("{which} mark ");
    let mark = form.block(page).split(start.as_str()).nth(1).unwrap();
    mark.split(',').next().unwrap().to_owned()
}

/// The section of the page with this id, up to the next one.
fn section<'a>(page: &'a str, id: &str) -> &'a str {
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

async fn settle_point(
    browser: &mut Browser<'_>,
    round: &str,
    form: &Form,
    marks: &str,
    reason: &str,
) -> u16 {
    let reply = form.send(browser, round, marks, reason).await;
    reply.status.as_u16()
}

async fn marks_in(at: &Department<'_>, set: usize) -> Vec<mark::Mark> {
    let mut db = at.app.db().await;
    mark::list_standing(&mut db, &[at.id(set)], at.scheme, None)
        .await
        .unwrap()
}
