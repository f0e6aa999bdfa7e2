//! Settling: which differences are open, who settles them, and that a mark
//! moves only where somebody said so.

use std::collections::BTreeSet;

use server::db::{mark, round};
use server::ids::RoundId;

use super::department::{Department, colleague, mark_all, marked, number};
use crate::support::{Browser, NAME, Reply, TestApp};

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
    let mut db = at.app.store.reader().await.unwrap();
    mark::list_standing(&mut db, at.id(set), at.scheme, None)
        .await
        .unwrap()
}

#[tokio::test]
async fn what_is_within_the_tolerance_needs_no_word_and_the_rest_is_first() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let page = at.head.get(&format!("{round}/settle")).await.expect(200);
    let open = section(&page.text, "open");
    // A got all marks from both; B lost every even point, C half of each.
    assert!(!open.contains("group A</h3>"), "{open}");
    for label in ["B", "C"] {
        assert_eq!(open.matches(&format!("group {label}</h3>")).count(), 2);
    }
    let within = section(&page.text, "within");
    assert_eq!(within.matches("group A</h3>").count(), 2, "{within}");
    assert!(within.contains("First 20, marked by"), "{within}");
    assert!(page.text.contains("differences to settle first"));
}

#[tokio::test]
async fn an_agreed_mark_is_given_openly_and_nothing_else_moves() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let before = (marks_in(&at, 0).await, marks_in(&at, 1).await);
    let page = at.gill.get(&format!("{round}/settle")).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let second = mark_on(&page.text, &form, "Second");
    let settled = settle_point(
        &mut at.gill,
        &round,
        &form,
        &second,
        "the gap was counted from one",
    )
    .await;
    assert_eq!(settled, 303);
    let after = (marks_in(&at, 0).await, marks_in(&at, 1).await);
    let all = |(one, other): (Vec<mark::Mark>, Vec<mark::Mark>)| [one, other].concat();
    let (before, after) = (all(before), all(after));
    let new: Vec<_> = after.iter().filter(|mark| !before.contains(mark)).collect();
    assert_eq!(new.len(), 1);
    assert_eq!(
        (new[0].awarded, new[0].by.as_str()),
        (second.parse().ok(), "Mrs Gill")
    );
    assert_eq!(
        new[0].reason,
        "Agreed in the moderation round Autumn: the gap was counted from one"
    );
    let page = at.gill.get(&format!("{round}/settle")).await.expect(200);
    assert!(page.text.contains(&format!(
        "<strong>Agreed: {second}.</strong> <span class=\"as-typed\">the gap was counted from one"
    )));
    assert!(!open_forms(&page.text).contains(&form));
}

#[tokio::test]
async fn choosing_the_first_mark_gives_none() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let before = marks_in(&at, 0).await.len() + marks_in(&at, 1).await.len();
    let page = at.head.get(&format!("{round}/settle")).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let first = mark_on(&page.text, &form, "First");
    assert_eq!(
        settle_point(&mut at.head, &round, &form, &first, "as ruled").await,
        303
    );
    let after = marks_in(&at, 0).await.len() + marks_in(&at, 1).await.len();
    assert_eq!(before, after);
    let page = at.head.get(&format!("{round}/settle")).await.expect(200);
    assert!(
        page.text
            .contains("<strong>The first mark stands.</strong> <span class=\"as-typed\">as ruled")
    );
}

#[tokio::test]
async fn taking_an_agreed_mark_back_to_the_first_gives_the_first_again() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.get(&url).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let second = mark_on(&page.text, &form, "Second");
    assert_eq!(
        settle_point(&mut at.head, &round, &form, &second, "both").await,
        303
    );
    let page = at.head.get(&url).await.expect(200);
    let first = mark_on(&page.text, &form, "First");
    // With the page from before, somebody else's word would be lost.
    assert_eq!(
        settle_point(&mut at.head, &round, &form, &first, "no").await,
        409
    );
    let anew = form.anew(&page.text);
    assert_eq!(
        settle_point(&mut at.head, &round, &anew, &first, "on looking again").await,
        303
    );
    let all = [marks_in(&at, 0).await, marks_in(&at, 1).await].concat();
    let newest = all.iter().max_by_key(|mark| mark.id.0).unwrap();
    assert_eq!(newest.awarded.unwrap().to_string(), first);
    assert!(
        newest
            .reason
            .starts_with("The first mark stands in the moderation round Autumn")
    );
}

#[tokio::test]
async fn bad_forms_come_back_with_what_was_typed() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.get(&url).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let cases = [
        ("", "kept words", "Choose the mark that holds."),
        ("99", "kept words", "Choose the mark that holds."),
        ("1", "  ", "Write down why. It stays on record."),
        ("1", &"x".repeat(801), "Use at most 800 characters."),
    ];
    for (marks, reason, sentence) in cases {
        let reply = form.send(&mut at.head, &round, marks, reason).await;
        let reply = reply.expect(422);
        assert!(reply.text.contains(sentence), "{sentence}");
        if !reason.trim().is_empty() {
            assert!(
                reply.text.contains(&format!(">{reason}</textarea>")),
                "{sentence}"
            );
        }
        if marks == "1" {
            assert!(reply.text.contains("value=\"1\" checked"));
        }
    }
    let unknown = [
        ("sheet", "999"),
        ("point", "1"),
        ("marks", "1"),
        ("reason", "why"),
    ];
    at.head.post_staff(&url, &unknown).await.expect(404);
}

#[tokio::test]
async fn a_whole_sheet_may_stand_as_it_was_marked_first() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.get(&url).await.expect(200);
    let open = sheets(section(&page.text, "open"));
    let sheet = open.first().unwrap();
    let form = Form::whole(&page.text, *sheet);
    let reply = form.send(&mut at.head, &round, "", " ").await.expect(422);
    assert!(reply.text.contains("Write down why. It stays on record."));
    let why = "the script is hard to read";
    form.send(&mut at.head, &round, "", why).await.expect(303);
    let page = at.head.get(&url).await.expect(200);
    assert!(!sheets(section(&page.text, "open")).contains(sheet));
    let settled = section(&page.text, "settled");
    assert!(settled.contains(
        "<strong>All other first marks of the sheet stand.</strong> the script is hard to read"
    ));
}

#[tokio::test]
async fn only_the_pair_and_the_head_see_and_settle_a_sheet() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let mut ash = colleague(&app, &mut at.head, "Mr Ash").await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let head = at.head.get(&url).await.expect(200);
    let tarn = at.tarn.get(&url).await.expect(200);
    let gill = at.gill.get(&url).await.expect(200);
    ash.get(&url).await.expect(403);
    assert_eq!(sheets(&head.text), sheets(&gill.text));
    let of_tarn = sheets(&tarn.text);
    assert_eq!(of_tarn.len(), 4, "his own class");
    let other = sheets(&head.text)
        .difference(&of_tarn)
        .next()
        .unwrap()
        .to_string();
    let boxes = [("sheet", other.as_str()), ("reason", "mine now")];
    at.tarn.post_staff(&url, &boxes).await.expect(404);
    assert!(!tarn.text.contains("Close the round"));
    let nobody = app.browser().get(&url).await.expect(303);
    assert_eq!(nobody.location(), "/staff/sign-in");
}

#[tokio::test]
async fn before_the_marks_are_shown_there_is_nothing_to_settle() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = at.make_round(&["Mrs Gill"]).await;
    at.head.get(&format!("{round}/settle")).await.expect(404);
    at.draw(&round).await;
    at.head.get(&format!("{round}/settle")).await.expect(404);
    let boxes = [("sheet", "1"), ("reason", "early")];
    at.head
        .post_staff(&format!("{round}/settle"), &boxes)
        .await
        .expect(404);
    at.head.get("/moderation/77/settle").await.expect(404);
}

#[tokio::test]
async fn a_class_is_marked_again_and_what_is_done_of_it_is_counted() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let (url, again) = (format!("{round}/settle"), format!("{round}/again"));
    let before = open_forms(&at.head.get(&url).await.expect(200).text).len();
    let set = at.id(1).to_string();
    let all = [
        ("class_set", set.as_str()),
        ("point", "all"),
        ("reason", "half the marks throughout"),
    ];
    at.tarn.post_staff(&again, &all).await.expect(403);
    at.head.post_staff(&again, &all[1..]).await.expect(422);
    at.head.post_staff(&again, &all).await.expect(303);
    let page = at.head.get(&url).await.expect(200);
    assert!(open_forms(&page.text).len() < before);
    let marks = marks_in(&at, 1).await.len();
    assert!(
        page.text
            .contains(&format!("0 of {marks} marks given anew since"))
    );
    at.mark_first(1, "C", "Mr Tarn", |_, most| most).await;
    let page = at.head.get(&url).await.expect(200);
    let done = marks / 4;
    assert!(
        page.text
            .contains(&format!("{done} of {marks} marks given anew since"))
    );
    assert!(page.text.contains("<strong>Marked since:</strong>"));
    let back = section(&page.text, "again");
    let back = back.split("name=\"back\"").nth(1).unwrap();
    let seen = Form::first_in(back).seen;
    let back = [&all[..], &[("back", "yes"), ("seen", &seen)]].concat();
    at.head.post_staff(&again, &back).await.expect(303);
    let page = at.head.get(&url).await.expect(200);
    assert_eq!(open_forms(&page.text).len(), before);
    assert!(page.text.contains("Nothing is marked again."));
}

#[tokio::test]
async fn one_point_of_a_class_is_marked_again() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let (url, again) = (format!("{round}/settle"), format!("{round}/again"));
    let page = at.head.get(&url).await.expect(200);
    let point = open_forms(&page.text).remove(0).point;
    let count = |text: &str| {
        open_forms(text)
            .iter()
            .filter(|form| form.point == point)
            .count()
    };
    let before = count(&page.text);
    for set in 0..2 {
        let set = at.id(set).to_string();
        let boxes = [
            ("class_set", set.as_str()),
            ("point", &point),
            ("reason", "read in two ways"),
        ];
        at.head.post_staff(&again, &boxes).await.expect(303);
    }
    let page = at.head.get(&url).await.expect(200);
    assert!(before > 0);
    assert_eq!(count(&page.text), 0);
    assert!(page.text.contains("Marked again for the whole class"));
    assert_eq!(
        page.text.matches("0 of 4 marks given anew since").count(),
        2
    );
}

#[tokio::test]
async fn a_settled_mark_is_not_undone_from_the_marking_pages() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let page = at.gill.get(&format!("{round}/settle")).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let second = mark_on(&page.text, &form, "Second");
    assert_eq!(
        settle_point(&mut at.gill, &round, &form, &second, "both").await,
        303
    );
    for set in 0..2 {
        let url = format!("/class-sets/{}/marking/undo", at.id(set));
        let reply = at.gill.post_staff(&url, &[]).await.expect(400);
        assert!(reply.text.contains("You have given no mark"));
    }
    let mut db = app.store.reader().await.unwrap();
    let stored = round::get(&mut db, RoundId(number(&round))).await.unwrap();
    assert_eq!(stored.step, Some(round::Step::Shown));
}

#[tokio::test]
async fn letting_all_first_marks_stand_gives_back_those_that_were_changed_since() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let first = marks_in(&at, 0).await;
    at.mark_first(0, "C", NAME, |_, most| most).await;
    let page = at.head.get(&url).await.expect(200);
    let of_c = first.iter().filter(|mark| mark.awarded == Some(0)).count();
    assert!(of_c > 0, "C had lost marks");
    let moved = page
        .text
        .split("<article ")
        .find(|part| part.contains("Marked since:"));
    let moved = moved.unwrap().split("id=\"sheet-").nth(1).unwrap();
    let sheet = moved.split('"').next().unwrap().parse().unwrap();
    let stale = Form {
        newest: "1".to_owned(),
        ..Form::whole(&page.text, sheet)
    };
    stale
        .send(&mut at.head, &round, "", "stale")
        .await
        .expect(409);
    let form = Form::whole(&page.text, sheet);
    form.send(&mut at.head, &round, "", "as first read")
        .await
        .expect(303);
    let after = marks_in(&at, 0).await;
    let awarded = |marks: &[mark::Mark]| -> BTreeSet<(i64, i64, Option<i64>)> {
        let marks = marks.iter();
        marks
            .map(|mark| (mark.sheet_id.0, mark.key, mark.awarded))
            .collect()
    };
    assert_eq!(awarded(&first), awarded(&after));
    let page = at.head.get(&url).await.expect(200);
    assert!(!page.text.contains("Marked since:"));
}

#[tokio::test]
async fn of_two_who_settle_one_point_the_later_is_shown_the_others_word() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.get(&url).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let (first, second) = (
        mark_on(&page.text, &form, "First"),
        mark_on(&page.text, &form, "Second"),
    );
    // A first mark that stands gives no mark that could be noticed.
    let one = form.send(&mut at.head, &round, &first, "mine").await;
    one.expect(303);
    let other = form.send(&mut at.gill, &round, &second, "yours").await;
    let other = other.expect(409);
    assert!(
        other
            .text
            .contains("<strong>The first mark stands.</strong>")
    );
    assert!(other.text.contains(">yours</textarea>"));
}

#[tokio::test]
async fn what_is_to_be_marked_again_is_no_longer_as_it_was_agreed() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let (url, again) = (format!("{round}/settle"), format!("{round}/again"));
    let page = at.tarn.get(&url).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let second = mark_on(&page.text, &form, "Second");
    form.send(&mut at.tarn, &round, &second, "both")
        .await
        .expect(303);
    let set = at.id(1).to_string();
    let boxes = [
        ("class_set", set.as_str()),
        ("point", &form.point),
        ("reason", "read in two ways"),
    ];
    at.head.post_staff(&again, &boxes).await.expect(303);
    let to_do = at.tarn.get("/moderation").await.expect(200);
    assert!(to_do.text.contains("Mark a point again for 10B/Ph2"));
    let to_do = at.gill.get("/moderation").await.expect(200);
    assert!(!to_do.text.contains("Mark a point again"));
    let page = at.tarn.get(&url).await.expect(200);
    assert!(!page.text.contains("<strong>Agreed:"));
    assert!(page.text.contains("0 of 4 marks given anew since"));
    // Marks that are taken back again are none.
    let marking = format!("/class-sets/{set}/marking");
    let sheet = at
        .tarn
        .get(&format!("{marking}/sheets/D"))
        .await
        .expect(200);
    let award = format!("{marking}/sheets/D/award/{}", form.point);
    let part = sheet.text.split(&award).nth(1).unwrap();
    let hidden = |name: &str| {
        let start = format!("name=\"{name}\" value=\"");
        let rest = part.split(start.as_str()).nth(1).unwrap();
        rest.split('"').next().unwrap().to_owned()
    };
    let (revision, newest) = (hidden("revision"), hidden("newest"));
    let boxes = [
        ("revision", revision.as_str()),
        ("newest", &newest),
        ("marks", "1"),
        ("reason", "again"),
    ];
    at.tarn.post_staff(&award, &boxes).await.expect(303);
    let page = at.tarn.get(&url).await.expect(200);
    assert!(page.text.contains("1 of 4 marks given anew since"));
    at.tarn
        .post_staff(&format!("{marking}/undo"), &[])
        .await
        .expect(303);
    let page = at.tarn.get(&url).await.expect(200);
    assert!(page.text.contains("0 of 4 marks given anew since"));
}
