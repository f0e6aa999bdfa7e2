use super::{BOXES, at_bench, revisions};
use crate::support::TestApp;

#[tokio::test]
async fn receipt_is_shown_and_everything_is_there_as_typed() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    assert_eq!(
        pupil.keeps(&sheet, "hand_in", &BOXES).await.location(),
        sheet
    );
    let page = pupil.opens(&sheet).await.says("Handed in at 10:42. Kept.");
    let page = page
        .says("name=\"r1.wavelength\" value=\"1.60\"")
        .says("name=\"w.scale_image\" value=\"14.0\"");
    page.says("<option value=\"cm\" selected>cm</option>");
}

#[tokio::test]
async fn save_is_no_hand_in_and_changes_after_one_say_so() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    pupil.keeps(&sheet, "save", &BOXES).await;
    pupil
        .get(&sheet)
        .await
        .says("Saved at 10:42. Not handed in yet.");
    pupil.keeps(&sheet, "hand_in", &BOXES).await;
    pupil.get(&sheet).await.says("Handed in at 10:42. Kept.");
    assert_eq!(revisions(&app).await, 2);
    app.clock.advance(60_000);
    pupil.keeps(&sheet, "save", &[("r1.dial", "11")]).await;
    pupil
        .get(&sheet)
        .await
        .says("Saved at 10:43. These changes are not handed in yet.");
    assert_eq!(revisions(&app).await, 3);
}

#[tokio::test]
async fn double_click_and_reload_are_one_hand_in() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    for _ in 0..3 {
        pupil.keeps(&sheet, "hand_in", &BOXES).await;
    }
    assert_eq!(revisions(&app).await, 1);
}

#[tokio::test]
async fn two_at_the_same_moment_are_one_hand_in() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    let mut twin = app.browser();
    twin.set_cookie("visit", &pupil.cookie("visit").unwrap());
    let (one, two) = tokio::join!(
        pupil.send_sheet(&sheet, &draft, "hand_in", &BOXES),
        twin.send_sheet(&sheet, &draft, "hand_in", &BOXES),
    );
    one.expect(303);
    two.expect(303);
    assert_eq!(revisions(&app).await, 1);
}

#[tokio::test]
async fn back_and_again_is_one_hand_in() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    pupil
        .send_sheet(&sheet, &draft, "hand_in", &BOXES)
        .await
        .expect(303);
    // Back asks for the page anew: it carries another draft.
    let again = pupil.open_sheet(&sheet).await;
    assert_ne!(again, draft);
    pupil
        .send_sheet(&sheet, &again, "hand_in", &BOXES)
        .await
        .expect(303);
    assert_eq!(revisions(&app).await, 1);
}

#[tokio::test]
async fn late_repeat_does_not_undo_what_came_after() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let first = pupil.open_sheet(&sheet).await;
    pupil
        .send_sheet(&sheet, &first, "hand_in", &[("r1.dial", "10")])
        .await
        .expect(303);
    let second = pupil.open_sheet(&sheet).await;
    pupil
        .send_sheet(&sheet, &second, "hand_in", &[("r1.dial", "20")])
        .await
        .expect(303);
    pupil
        .send_sheet(&sheet, &first, "hand_in", &[("r1.dial", "10")])
        .await
        .expect(303);
    pupil
        .get(&sheet)
        .await
        .says("name=\"r1.dial\" value=\"20\"");
    assert_eq!(revisions(&app).await, 2);
}

#[tokio::test]
async fn opening_the_sheet_again_uses_the_same_draft() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    assert_eq!(
        pupil.open_sheet(&sheet).await,
        pupil.open_sheet(&sheet).await
    );
}

#[tokio::test]
async fn nothing_at_all_cannot_be_handed_in() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    pupil
        .send_sheet(&sheet, &draft, "hand_in", &[("r1.dial", " ")])
        .await
        .expect(422)
        .says("Nothing to keep yet")
        .says("Type your readings first");
    assert_eq!(revisions(&app).await, 0);
}

#[tokio::test]
async fn odd_entry_is_kept_and_asked_about() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    pupil.keeps(&sheet, "save", &[("w.depth_mm", "300")]).await;
    pupil
        .get(&sheet)
        .await
        .says("id=\"w.depth_mm-asked\"")
        .says("Kept, but is it right?");
}
