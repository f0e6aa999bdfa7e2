use super::marked;
use crate::support::{Group, TestApp};

#[tokio::test]
async fn feedback_marks_the_first_wrong_turn_and_writes_it_out() {
    let (mut at, _) = marked(TestApp::new().await).await;
    at.release("out").await;
    let sheet = at.feedback_of_a().await.expect(200);
    assert_eq!(sheet.count("← here"), 1, "one wrong turn is pointed to");
    sheet.says("You did not divide by the enlargement.")
        .says("22.4 cm ÷ 8 = 2.80 cm; on the water 2.80 ÷ 1.75 = 1.60 cm; you have <strong>2.80 cm</strong>")
        .says("<h3>One thing to do next</h3><p>Divide each wavelength on the screen by your enlargement.")
        .says("not marked yet")
        .says_nothing_of("Together:");
}

#[tokio::test]
async fn right_figures_have_a_tick_and_a_full_slip_a_total() {
    let (mut at, mut b) = marked(TestApp::new().await).await;
    at.award_suggested("B").await.expect(303);
    // What is judged by eye.
    for key in [1, 2, 12, 16, 17] {
        at.awards("B", key, "1").await;
    }
    at.release("out").await;
    let own = at.feedback("B");
    let sheet = b.opens(&own).await;
    // Five wavelengths, reciprocals and speeds, and the enlargement.
    assert_eq!(sheet.count("class=\"ticked\""), 16);
    sheet
        .says("Together: ")
        .says_nothing_of("not marked yet")
        .says_nothing_of("wrong turn");
}

#[tokio::test]
async fn notes_for_the_staff_and_slips_that_were_dismissed_are_not_on_it() {
    let (mut at, _) = marked(TestApp::new().await).await;
    at.note("Ask their tutor.", "staff").await;
    at.decides("slip-0", "dismissed", "It is in their book.")
        .await;
    at.release("out").await;
    at.feedback_of_a()
        .await
        .says_nothing_of("Ask their tutor.")
        .says_nothing_of("wrong turn")
        .says_nothing_of("in their book");
}

#[tokio::test]
async fn what_readings_suggest_is_said_only_once_a_teacher_confirmed_it() {
    let (mut at, mut b) = marked(TestApp::new().await).await;
    let group = Group::CAREFUL.odd(2, 9.0 / 10.0);
    let sheet = format!("/c/{}/B", at.code);
    group.sends_again("hand_in", &mut b, &sheet).await;
    let page = at.page("/sheets/B").await;
    let form = page.at("#suggested-0 form");
    assert_eq!(form.value("slip"), "crest-miscount", "what is suggested");
    at.release("out").await;
    let own = at.feedback("B");
    let found = "found a slip in your readings:</strong> row 3.";
    b.opens(&own).await.says_nothing_of("found a slip");
    let confirmed = [("verdict", "confirmed")];
    at.teacher.fill(&form, &confirmed).await.expect(303);
    b.get(&own).await.says_nothing_of("found a slip");
    at.release("out").await;
    b.get(&own)
        .await
        .says(found)
        .says_nothing_of("out by one wave");
}
