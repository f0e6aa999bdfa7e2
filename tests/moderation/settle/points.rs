//! Settling points, and whole sheets.

use std::collections::BTreeSet;

use server::db::mark;

use super::{Form, marks_in, open_forms, section, sheets, shown};
use crate::support::{NAME, TestApp};

#[tokio::test]
async fn what_is_within_the_tolerance_needs_no_word_and_the_rest_is_first() {
    let app = TestApp::new().await;
    let (mut at, _, settle) = shown(&app).await;
    let page = at.head.opens(&settle).await;
    let open = section(&page.text, "open");
    // A got all marks from both; B lost every even point, C half of each.
    assert!(!open.contains("group A</h3>"), "{open}");
    for label in ["B", "C"] {
        assert_eq!(open.matches(&format!("group {label}</h3>")).count(), 2);
    }
    let within = section(&page.text, "within");
    assert_eq!(within.matches("group A</h3>").count(), 2, "{within}");
    assert!(within.contains("First 20, marked by"), "{within}");
    page.says("differences to settle first");
}

#[tokio::test]
async fn an_agreed_mark_is_given_openly_and_nothing_else_moves() {
    let app = TestApp::new().await;
    let (mut at, _, settle) = shown(&app).await;
    let before = marks_in(&at, &[0, 1]).await;
    let page = at.gill.opens(&settle).await;
    let form = open_forms(&page.text).remove(0);
    let second = form.mark(&page.text, "Second");
    let why = "the gap was counted from one";
    let settled = form.send(&mut at.gill, &settle, second, why).await;
    settled.expect(303);
    let after = marks_in(&at, &[0, 1]).await;
    let new: Vec<_> = after.iter().filter(|mark| !before.contains(mark)).collect();
    assert_eq!(new.len(), 1);
    let given = (new[0].awarded, new[0].by.as_str());
    assert_eq!(given, (second.parse().ok(), "Mrs Gill"));
    let reason = format!("Agreed in the moderation round Autumn: {why}");
    assert_eq!((new[0].reason.as_str(), new[0].why()), (why, reason));
    let page = at.gill.opens(&settle).await.says(&format!(
        "<strong>Agreed: {second}.</strong> <span class=\"as-typed\">{why}"
    ));
    assert!(!open_forms(&page.text).contains(&form));
}

#[tokio::test]
async fn choosing_the_first_mark_gives_none() {
    let app = TestApp::new().await;
    let (mut at, _, settle) = shown(&app).await;
    let before = marks_in(&at, &[0, 1]).await;
    let page = at.head.opens(&settle).await;
    let form = open_forms(&page.text).remove(0);
    let first = form.mark(&page.text, "First");
    let settled = form.send(&mut at.head, &settle, first, "as ruled").await;
    settled.expect(303);
    assert_eq!(before, marks_in(&at, &[0, 1]).await);
    let page = at.head.opens(&settle).await;
    page.says("<strong>The first mark stands.</strong> <span class=\"as-typed\">as ruled");
}

#[tokio::test]
async fn taking_an_agreed_mark_back_to_the_first_gives_the_first_again() {
    let app = TestApp::new().await;
    let (mut at, _, settle) = shown(&app).await;
    let page = at.head.opens(&settle).await;
    let form = open_forms(&page.text).remove(0);
    let second = form.mark(&page.text, "Second");
    let settled = form.send(&mut at.head, &settle, second, "both").await;
    settled.expect(303);
    let page = at.head.opens(&settle).await;
    let first = form.mark(&page.text, "First");
    // With the page from before, somebody else's word would be lost.
    let stale = form.send(&mut at.head, &settle, first, "no").await;
    stale.expect(409);
    let anew = form.anew(&page.text);
    let settled = anew.send(&mut at.head, &settle, first, "on looking again");
    settled.await.expect(303);
    let all = marks_in(&at, &[0, 1]).await;
    let newest = all.iter().max_by_key(|mark| mark.id.0).unwrap();
    assert_eq!(newest.awarded.unwrap().to_string(), first);
    let reason = "The first mark stands in the moderation round Autumn";
    assert!(newest.why().starts_with(reason), "{newest:?}");
}

#[tokio::test]
async fn a_whole_sheet_may_stand_as_it_was_marked_first() {
    let app = TestApp::new().await;
    let (mut at, _, settle) = shown(&app).await;
    let page = at.head.opens(&settle).await;
    let open = sheets(section(&page.text, "open"));
    let sheet = open.first().unwrap();
    let form = Form::whole(&page.text, *sheet);
    let blank = form.send(&mut at.head, &settle, "", " ").await;
    blank
        .expect(422)
        .says("Write down why. It stays on record.");
    let why = "the script is hard to read";
    let settled = form.send(&mut at.head, &settle, "", why).await;
    settled.expect(303);
    let page = at.head.opens(&settle).await;
    assert!(!sheets(section(&page.text, "open")).contains(sheet));
    let word = format!("<strong>All other first marks of the sheet stand.</strong> {why}");
    assert!(section(&page.text, "settled").contains(&word));
}

#[tokio::test]
async fn letting_all_first_marks_stand_gives_back_those_that_were_changed_since() {
    let app = TestApp::new().await;
    let (mut at, _, settle) = shown(&app).await;
    let first = marks_in(&at, &[0]).await;
    let lost = first.iter().any(|mark| mark.awarded == Some(0));
    assert!(lost, "C had lost marks");
    at.mark_first(0, "C", NAME, |_, most| most).await;
    let page = at.head.opens(&settle).await;
    let mut articles = page.text.split("<article ");
    let moved = articles.find(|part| part.contains("Marked since:"));
    let moved = sheets(&format!("<article {}", moved.unwrap()));
    let form = Form::whole(&page.text, *moved.first().unwrap());
    let stale = Form {
        newest: "1".to_owned(),
        ..form.clone()
    };
    let refused = stale.send(&mut at.head, &settle, "", "stale").await;
    refused.expect(409);
    let settled = form.send(&mut at.head, &settle, "", "as first read").await;
    settled.expect(303);
    let awarded = |marks: Vec<mark::Mark>| -> BTreeSet<(i64, i64, Option<i64>)> {
        let marks = marks.into_iter();
        marks
            .map(|mark| (mark.sheet_id.0, mark.key, mark.awarded))
            .collect()
    };
    assert_eq!(awarded(first), awarded(marks_in(&at, &[0]).await));
    let page = at.head.opens(&settle).await;
    page.says_nothing_of("Marked since:");
}

#[tokio::test]
async fn what_is_wrong_with_a_form_of_a_sheet_within_the_tolerance_is_in_sight() {
    let app = TestApp::new().await;
    let (mut at, _, settle) = shown(&app).await;
    let page = at.head.opens(&settle).await;
    let within = section(&page.text, "within");
    assert!(within.contains("<details>"), "it is folded away at first");
    let form = Form::first_in(within);
    let first = form.mark(&page.text, "First");
    let reply = form.send(&mut at.head, &settle, first, " ").await;
    let reply = reply.expect(422);
    let within = section(&reply.text, "within");
    assert!(within.contains("Write down why. It stays on record."));
    assert!(within.contains("<details open>"), "{within}");
}
