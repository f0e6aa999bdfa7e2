//! Who settles, when, and what is refused.

use server::db::mark::Mark;

use super::{mark, marks_in, open_points, send, sheets, shown};
use crate::moderation::department::marked;

#[tokio::test]
async fn bad_forms_come_back_with_what_was_typed() {
    let (mut at, _, settle) = shown().await;
    let page = at.head.opens(&settle).await;
    let point = open_points(&page).remove(0);
    let choose = "Choose the mark that holds.";
    let cases = [
        ("", "kept words", choose),
        ("99", "kept words", choose),
        ("1", "  ", "Write down why. It stays on record."),
        ("1", &"x".repeat(801), "Use at most 800 characters."),
    ];
    for (marks, reason, sentence) in cases {
        let reply = send(&point, &mut at.head, marks, reason).await;
        let reply = reply.expect(422).says(sentence);
        let reply = match reason.trim() {
            "" => reply,
            _ => reply.says(&format!(">{reason}</textarea>")),
        };
        assert_eq!(reply.count("value=\"1\" checked") > 0, marks == "1");
    }
    let unknown = [("sheet", "999"), ("point", "1"), ("reason", "why")];
    at.head.post_staff(&settle, &unknown).await.expect(404);
}

#[tokio::test]
async fn only_the_pair_and_the_head_see_and_settle_a_sheet() {
    let (mut at, _, settle) = shown().await;
    let mut ash = at.head.colleague("Mr Ash").await;
    let head = sheets(&at.head.opens(&settle).await.page());
    let tarn = at.tarn.opens(&settle).await;
    let gill = at.gill.opens(&settle).await;
    ash.get(&settle).await.expect(403);
    assert_eq!(head, sheets(&gill.page()));
    let tarn = tarn.says_nothing_of("Close the round");
    let of_tarn = sheets(&tarn.page());
    assert_eq!(of_tarn.len(), 4, "his own class");
    let other = head.difference(&of_tarn).next().unwrap().to_string();
    let boxes = [("sheet", other.as_str()), ("reason", "mine now")];
    at.tarn.post_staff(&settle, &boxes).await.expect(404);
    let nobody = at.app.get(&settle).await.expect(303);
    assert_eq!(nobody.location(), "/staff/sign-in");
}

#[tokio::test]
async fn before_the_marks_are_shown_there_is_nothing_to_settle() {
    let mut at = marked().await;
    let round = at.make_round(&["Mrs Gill"]).await;
    let settle = format!("{round}/settle");
    at.head.get(&settle).await.expect(404);
    at.draw(&round).await;
    at.head.get(&settle).await.expect(404);
    let boxes = [("sheet", "1"), ("reason", "early")];
    at.head.post_staff(&settle, &boxes).await.expect(404);
    at.head.get("/moderation/77/settle").await.expect(404);
}

#[tokio::test]
async fn a_settled_mark_is_not_undone_from_the_marking_pages() {
    let (mut at, _, settle) = shown().await;
    let page = at.gill.opens(&settle).await;
    let point = open_points(&page).remove(0);
    let second = mark(&point, "Second");
    let settled = send(&point, &mut at.gill, &second, "both").await;
    settled.expect(303);
    let marks = marks_in(&at, &[0, 1]).await;
    for set in at.sets.clone() {
        let undo = format!("{set}/marking/undo");
        let reply = at.gill.post_staff(&undo, &[]).await.expect(400);
        reply.says("You have given no mark");
    }
    assert_eq!(marks, marks_in(&at, &[0, 1]).await);
}

#[tokio::test]
async fn of_two_who_settle_one_point_the_later_is_shown_the_others_word() {
    let (mut at, _, settle) = shown().await;
    let page = at.head.opens(&settle).await;
    let point = open_points(&page).remove(0);
    let [first, second] = ["First", "Second"].map(|which| mark(&point, which));
    // A first mark that stands gives no mark that could be noticed.
    let one = send(&point, &mut at.head, &first, "mine").await;
    one.expect(303);
    let other = send(&point, &mut at.gill, &second, "yours").await;
    let other = other.expect(409);
    other
        .says("<strong>The first mark stands.</strong>")
        .says(">yours</textarea>");
}

#[tokio::test]
async fn what_was_settled_is_said_again_when_a_later_mark_is_undone() {
    let (mut at, _, settle) = shown().await;
    let before = marks_in(&at, &[0, 1]).await;
    let page = at.head.opens(&settle).await;
    let point = open_points(&page).remove(0);
    let second = mark(&point, "Second");
    let settled = send(&point, &mut at.head, &second, "both").await;
    settled.expect(303);
    let newest = |marks: Vec<Mark>| marks.into_iter().max_by_key(|mark| mark.id.0).unwrap();
    let given = newest(marks_in(&at, &[0, 1]).await);
    assert!(before.iter().all(|mark| mark.id != given.id));
    let said = "Agreed in the moderation round Autumn: both";
    assert_eq!(given.why(), said);
    let place: (i64, String) = sqlx::query_as(
        "SELECT class_set_id, label FROM sheet JOIN bench ON bench.id = bench_id WHERE sheet.id = $1",
    )
    .bind(given.sheet_id.0)
    .fetch_one(&mut at.app.sql().await)
    .await
    .unwrap();
    let marking = format!("/class-sets/{}/marking", place.0);
    let sheet = at
        .head
        .opens(&format!("{marking}/sheets/{}", place.1))
        .await;
    let sheet = sheet.says(said);
    let form = sheet.at(&format!("#point-{} .award", given.key));
    let other = [("marks", "0"), ("reason", "on second thoughts")];
    at.head.fill(&form, &other).await.expect(303);
    let later = newest(marks_in(&at, &[0, 1]).await);
    assert_eq!(later.why(), "on second thoughts");
    let undo = format!("{marking}/undo");
    at.head.post_staff(&undo, &[]).await.expect(303);
    let undone = newest(marks_in(&at, &[0, 1]).await);
    assert!(undone.id.0 > later.id.0);
    assert_eq!(
        (undone.awarded, undone.why()),
        (given.awarded, said.to_owned())
    );
    let kept = "SELECT count(*) FROM mark WHERE reason LIKE '%moderation round%'";
    let kept: Vec<i64> = at.app.values(kept).await;
    assert_eq!(kept, [0]);
}
