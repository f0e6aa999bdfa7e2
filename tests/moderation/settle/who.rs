//! Who settles, when, and what is refused.

use server::db::round;
use server::ids::RoundId;

use super::{mark_on, open_forms, settle_point, sheets, shown};
use crate::moderation::department::{colleague, marked, number};
use crate::support::TestApp;

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
