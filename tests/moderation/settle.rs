//! Settling: which differences are open, who settles them, and that a mark
//! moves only where somebody said so.

use std::collections::BTreeSet;

use server::db::{mark, round};
use server::ids::RoundId;

use super::department::{Department, colleague, mark_all, marked, number};
use crate::support::{Browser, TestApp};

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

/// A point of a sheet as the page has it.
fn block<'a>(page: &'a str, (sheet, point, _): &(String, String, String)) -> &'a str {
    let start = format!("id=\"sheet-{sheet}-point-{point}\"");
    page.split(start.as_str()).nth(1).unwrap()
}

/// The first or second mark of it.
fn mark_on(page: &str, form: &(String, String, String), which: &str) -> String {
    let start = format!("{which} mark ");
    let mark = block(page, form).split(start.as_str()).nth(1).unwrap();
    mark.split(',').next().unwrap().to_owned()
}

/// The newest mark that its form names.
fn newest_on(page: &str, form: &(String, String, String)) -> String {
    let start = "name=\"newest\" value=\"";
    let newest = block(page, form).split(start).nth(1).unwrap();
    newest.split('"').next().unwrap().to_owned()
}

/// The section of the page with this id, up to the next one.
fn section<'a>(page: &'a str, id: &str) -> &'a str {
    let start = format!("<section aria-labelledby=\"{id}\"");
    let section = page.split(start.as_str()).nth(1).unwrap_or("");
    section.split("<section").next().unwrap()
}

/// The forms of points that are open, in their order: sheet, point, newest.
fn open_forms(page: &str) -> Vec<(String, String, String)> {
    let blocks = page.split("class=\"marking-point ").skip(1);
    let open = blocks.filter(|block| block.contains(": to settle."));
    open.map(|block| {
        let hidden = |name: &str| {
            let start = format!("name=\"{name}\" value=\"");
            let rest = block.split(start.as_str()).nth(1).unwrap();
            rest.split('"').next().unwrap().to_owned()
        };
        (hidden("sheet"), hidden("point"), hidden("newest"))
    })
    .collect()
}

async fn settle_point(
    browser: &mut Browser<'_>,
    round: &str,
    (sheet, point, newest): &(String, String, String),
    marks: &str,
    reason: &str,
) -> u16 {
    let boxes = [
        ("sheet", sheet.as_str()),
        ("point", point),
        ("newest", newest),
        ("marks", marks),
        ("reason", reason),
    ];
    let url = format!("{round}/settle");
    browser.post_staff(&url, &boxes).await.status.as_u16()
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
    let newest = newest_on(&page.text, &form);
    // With the page from before, somebody else's word would be lost.
    assert_eq!(
        settle_point(&mut at.head, &round, &form, &first, "no").await,
        409
    );
    let anew = (form.0, form.1, newest);
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
    let (sheet, point, newest) = open_forms(&page.text).remove(0);
    let send = |marks: &str, reason: &str| {
        vec![
            ("sheet", sheet.clone()),
            ("point", point.clone()),
            ("newest", newest.clone()),
            ("marks", marks.to_owned()),
            ("reason", reason.to_owned()),
        ]
    };
    let cases = [
        ("", "kept words", "Choose the mark that holds."),
        ("99", "kept words", "Choose the mark that holds."),
        ("1", "  ", "Write down why. It stays on record."),
        ("1", &"x".repeat(801), "Use at most 800 characters."),
    ];
    for (marks, reason, sentence) in cases {
        let boxes = send(marks, reason);
        let boxes: Vec<_> = boxes.iter().map(|(n, v)| (*n, v.as_str())).collect();
        let reply = at.head.post_staff(&url, &boxes).await.expect(422);
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
    let id = sheet.to_string();
    let blank = [("sheet", id.as_str()), ("reason", " ")];
    let reply = at.head.post_staff(&url, &blank).await.expect(422);
    assert!(reply.text.contains("Write down why. It stays on record."));
    let boxes = [
        ("sheet", id.as_str()),
        ("reason", "the script is hard to read"),
    ];
    at.head.post_staff(&url, &boxes).await.expect(303);
    let page = at.head.get(&url).await.expect(200);
    assert!(!sheets(section(&page.text, "open")).contains(sheet));
    let settled = section(&page.text, "settled");
    assert!(settled.contains(
        "<strong>All first marks of the sheet stand.</strong> the script is hard to read"
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
    let back = [&all[..], &[("back", "yes")]].concat();
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
    let (_, point, _) = open_forms(&page.text).remove(0);
    let count = |text: &str| {
        open_forms(text)
            .iter()
            .filter(|form| form.1 == point)
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
