use super::marked;
use crate::support::{Group, TestApp};

#[tokio::test]
async fn slip_marks_the_first_wrong_turn_and_writes_it_out() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    at.release("out").await;
    let slip = at.slip_of_a().await.expect(200);
    assert_eq!(slip.count("← here"), 1, "one wrong turn is pointed to");
    slip.says("You did not divide by the enlargement.")
        .says("22.4 cm ÷ 8 = 2.80 cm; on the water 2.80 ÷ 1.75 = 1.60 cm; you have <strong>2.80 cm</strong>")
        .says("<h3>One thing to do next</h3><p>Divide each wavelength on the screen by your enlargement.")
        .says("not marked yet")
        .says_nothing_of("Together:");
}

#[tokio::test]
async fn right_figures_have_a_tick_and_a_full_slip_a_total() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    at.award_all("B").await;
    // What is judged by eye.
    for key in [1, 2, 12, 16, 17] {
        at.award("B", key, "1").await;
    }
    at.release("out").await;
    let own = at.own("B");
    let slip = at.b.opens(&own).await;
    // Five wavelengths, reciprocals and speeds, and the enlargement.
    assert_eq!(slip.count("class=\"ticked\""), 16);
    slip.says("Together: ")
        .says_nothing_of("not marked yet")
        .says_nothing_of("wrong turn");
}

#[tokio::test]
async fn notes_for_the_staff_and_slips_that_were_dismissed_are_not_on_it() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    at.note("Ask their tutor.", "staff").await;
    let page = at.teacher.get(&format!("{}/sheets/A", at.set)).await;
    let form = page.at("#slip-0 form");
    let dismissed = [("verdict", "dismissed"), ("reason", "It is in their book.")];
    at.teacher.fill(&form, &dismissed).await.expect(303);
    at.release("out").await;
    at.slip_of_a()
        .await
        .says_nothing_of("Ask their tutor.")
        .says_nothing_of("wrong turn")
        .says_nothing_of("in their book");
}

#[tokio::test]
async fn what_readings_suggest_is_said_only_once_a_teacher_confirmed_it() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let group = Group::CAREFUL.odd(2, 9.0 / 10.0);
    let sheet = format!("/c/{}/B", at.code);
    group.sends_again("hand_in", &mut at.b, &sheet).await;
    let page = at.teacher.get(&format!("{}/sheets/B", at.set)).await;
    let form = page.at("#suggested-0 form");
    assert_eq!(form.value("slip"), "crest-miscount", "what is suggested");
    at.release("out").await;
    let own = at.own("B");
    let found = "found a slip in your readings:</strong> row 3.";
    at.b.opens(&own).await.says_nothing_of("found a slip");
    let confirmed = [("verdict", "confirmed")];
    at.teacher.fill(&form, &confirmed).await.expect(303);
    at.b.get(&own).await.says_nothing_of("found a slip");
    at.release("out").await;
    at.b.get(&own)
        .await
        .says(found)
        .says_nothing_of("out by one wave");
}
