//! Who settles, when, and what is refused.

use server::db::round;
use server::ids::RoundId;

use super::{mark_on, open_forms, settle, sheets, shown};
use crate::moderation::department::{marked, number};
use crate::support::TestApp;

#[tokio::test]
async fn bad_forms_come_back_with_what_was_typed() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.opens(&url).await;
    let form = open_forms(&page).remove(0);
    let cases = [
        ("", "kept words", "Choose the mark that holds."),
        ("99", "kept words", "Choose the mark that holds."),
        ("1", "  ", "Write down why. It stays on record."),
        ("1", &"x".repeat(801), "Use at most 800 characters."),
    ];
    for (marks, reason, sentence) in cases {
        let reply = settle(&mut at.head, &form, marks, reason).await.expect(422);
        let block = super::block(&reply, &form).says(sentence);
        assert_eq!(block.value("reason").trim(), reason.trim(), "{sentence}");
        if marks == "1" {
            block.at("[name=marks][value='1'][checked]");
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
async fn only_the_pair_and_the_head_see_and_settle_a_sheet() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let mut ash = app.colleague(&mut at.head, "Mr Ash").await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let head = at.head.opens(&url).await;
    let tarn = at.tarn.opens(&url).await;
    let gill = at.gill.opens(&url).await;
    ash.get(&url).await.expect(403);
    let [head, of_tarn, gill] = [head, tarn, gill].map(|page| sheets(&page.page()));
    assert_eq!(head, gill);
    assert_eq!(of_tarn.len(), 4, "his own class");
    let other = head.difference(&of_tarn).next().unwrap().to_string();
    let boxes = [("sheet", other.as_str()), ("reason", "mine now")];
    at.tarn.post_staff(&url, &boxes).await.expect(404);
    at.tarn.get(&url).await.says_nothing_of("Close the round");
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
async fn a_settled_mark_is_not_undone_from_the_marking_pages() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let page = at.gill.opens(&format!("{round}/settle")).await;
    let form = open_forms(&page).remove(0);
    let second = mark_on(&page, &form, "Second");
    settle(&mut at.gill, &form, &second, "both")
        .await
        .expect(303);
    for set in 0..2 {
        let url = format!("/class-sets/{}/marking/undo", at.id(set));
        let reply = at.gill.post_staff(&url, &[]).await.expect(400);
        assert!(reply.text.contains("You have given no mark"));
    }
    let mut db = app.db().await;
    let stored = round::get(&mut db, RoundId(number(&round))).await.unwrap();
    assert_eq!(stored.step, Some(round::Step::Shown));
}

#[tokio::test]
async fn of_two_who_settle_one_point_the_later_is_shown_the_others_word() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.opens(&url).await;
    let form = open_forms(&page).remove(0);
    let (first, second) = (
        mark_on(&page, &form, "First"),
        mark_on(&page, &form, "Second"),
    );
    // A first mark that stands gives no mark that could be noticed.
    let hers = super::block(&at.gill.get(&url).await, &form).at("form");
    settle(&mut at.head, &form, &first, "mine")
        .await
        .expect(303);
    let other = settle(&mut at.gill, &hers, &second, "yours").await;
    let other = other.expect(409).says("The first mark stands.");
    assert_eq!(super::block(&other, &form).value("reason"), "yours");
}
