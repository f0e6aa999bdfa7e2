use super::{BOXES, revisions};
use crate::support::Lesson;

#[tokio::test]
async fn receipt_is_shown_and_everything_is_there_as_typed() {
    let mut at = Lesson::at_bench().await;
    assert_eq!(at.keeps("hand_in", &BOXES).await.location(), at.bench);
    let page = at.reads().await.says("Handed in at 10:42. Kept.");
    let page = page
        .says("name=\"r1.wavelength\" value=\"1.60\"")
        .says("name=\"w.scale_image\" value=\"14.0\"");
    page.says("<option value=\"cm\" selected>cm</option>");
}

#[tokio::test]
async fn save_is_no_hand_in_and_changes_after_one_say_so() {
    let mut at = Lesson::at_bench().await;
    at.keeps("save", &BOXES).await;
    at.reads().await.says("Saved at 10:42. Not handed in yet.");
    at.keeps("hand_in", &BOXES).await;
    at.reads().await.says("Handed in at 10:42. Kept.");
    assert_eq!(revisions(&at.app).await, 2);
    at.app.clock.advance(60_000);
    at.keeps("save", &[("r1.dial", "11")]).await;
    at.reads()
        .await
        .says("Saved at 10:43. These changes are not handed in yet.");
    assert_eq!(revisions(&at.app).await, 3);
}

#[tokio::test]
async fn double_click_and_reload_are_one_hand_in() {
    let mut at = Lesson::at_bench().await;
    for _ in 0..3 {
        at.keeps("hand_in", &BOXES).await;
    }
    assert_eq!(revisions(&at.app).await, 1);
}

#[tokio::test]
async fn two_at_the_same_moment_are_one_hand_in() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let (mut twin, bench) = (at.tab(), at.bench.clone());
    let (one, two) = tokio::join!(
        at.send(&draft, "hand_in", &BOXES),
        twin.send_sheet(&bench, &draft, "hand_in", &BOXES),
    );
    one.expect(303);
    two.expect(303);
    assert_eq!(revisions(&at.app).await, 1);
}

#[tokio::test]
async fn back_and_again_is_one_hand_in() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    at.send(&draft, "hand_in", &BOXES).await.expect(303);
    // Back asks for the page anew: it carries another draft.
    let again = at.draft().await;
    assert_ne!(again, draft);
    at.send(&again, "hand_in", &BOXES).await.expect(303);
    assert_eq!(revisions(&at.app).await, 1);
}

#[tokio::test]
async fn late_repeat_does_not_undo_what_came_after() {
    let mut at = Lesson::at_bench().await;
    let first = at.draft().await;
    at.send(&first, "hand_in", &[("r1.dial", "10")])
        .await
        .expect(303);
    let second = at.draft().await;
    at.send(&second, "hand_in", &[("r1.dial", "20")])
        .await
        .expect(303);
    at.send(&first, "hand_in", &[("r1.dial", "10")])
        .await
        .expect(303);
    at.reads().await.says("name=\"r1.dial\" value=\"20\"");
    assert_eq!(revisions(&at.app).await, 2);
}

#[tokio::test]
async fn opening_the_sheet_again_uses_the_same_draft() {
    let mut at = Lesson::at_bench().await;
    assert_eq!(at.draft().await, at.draft().await);
}

#[tokio::test]
async fn nothing_at_all_cannot_be_handed_in() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    at.send(&draft, "hand_in", &[("r1.dial", " ")])
        .await
        .expect(422)
        .says("Nothing to keep yet")
        .says("Type your readings first");
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn odd_entry_is_kept_and_asked_about() {
    let mut at = Lesson::at_bench().await;
    at.keeps("save", &[("w.depth_mm", "300")]).await;
    at.reads()
        .await
        .says("id=\"w.depth_mm-asked\"")
        .says("Kept, but is it right?");
}
