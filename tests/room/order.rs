//! Who needs a visit most, as the page has it. The rule itself is tested with
//! the analysis.

use super::labels;
use crate::support::{Group, Lesson, counted, miscount};
use server::words::Say;

#[tokio::test]
async fn readings_come_before_the_stuck_and_those_before_working_slips() {
    let mut lesson = Lesson::new().await;
    // A needs nobody; B has a slip in its working; C is stuck; D has readings.
    lesson.sends("hand_in", "A").await;
    lesson.hands_in(&Group::FORGETFUL, "B").await;
    lesson.sends("save", "C").await;
    lesson.sends("hand_in", "D").await;
    let findings = [("D", vec![miscount(0.8)])];
    lesson.suggest(&findings).await;
    assert_eq!(labels(&lesson.room_page().await), "DBAC");
    lesson.minutes_pass(5);
    let page = lesson.room_page().await;
    assert_eq!(labels(&page), "DCBA");
    page.says("A reading to take again while the apparatus is up.")
        .says("Stuck, it seems: nothing new for 5 minutes.")
        .says(Say::english().ask("stuck"))
        .says("A slip in the working: it can wait for the readings.")
        .says("Nothing that calls for a visit.");
}

#[tokio::test]
async fn most_probable_reading_comes_first() {
    let mut lesson = Lesson::new().await;
    for label in ["A", "B", "C"] {
        lesson.sends("hand_in", label).await;
    }
    let findings = [("B", vec![counted(0.85)]), ("C", vec![counted(0.97)])];
    lesson.suggest(&findings).await;
    assert_eq!(labels(&lesson.room_page().await), "CBAD");
}

#[tokio::test]
async fn bench_that_nobody_chose_is_asked_after_ten_minutes() {
    let mut lesson = Lesson::new().await;
    for label in ["A", "B", "C"] {
        lesson.sends("hand_in", label).await;
    }
    lesson.minutes_pass(9);
    assert_eq!(labels(&lesson.room_page().await), "ABCD");
    lesson.minutes_pass(1);
    let page = lesson.room_page().await;
    assert_eq!(labels(&page), "DABC");
    page.says("Nothing entered, though half the benches began over 10 minutes ago.")
        .says(Say::english().ask("not-begun"));
}

#[tokio::test]
async fn group_that_comes_back_is_not_stuck_at_once() {
    let mut lesson = Lesson::new().await;
    let mut first = lesson.app.browser();
    let number = first.take_bench(&lesson.code, "A").await;
    let url = lesson.bench.clone();
    Group::CAREFUL.sends_again("save", &mut first, &url).await;
    lesson.minutes_pass(30);
    lesson.tile("A").await.says("Stuck");
    let mut second = lesson.app.browser();
    let boxes = [("number", number.as_str())];
    let come_back = format!("{url}/come-back");
    second.opens(&come_back).await;
    second.post(&come_back, &boxes).await.expect(303);
    lesson.tile("A").await.says_nothing_of("Stuck");
}

#[tokio::test]
async fn bench_that_was_chosen_and_left_is_said_to_be() {
    let mut lesson = Lesson::new().await;
    let mut pupil = lesson.chooses("A").await;
    let leave = format!("{}/leave", lesson.bench);
    pupil.post(&leave, &[]).await.expect(303);
    lesson
        .tile("A")
        .await
        .says("Chosen and left again, nothing saved");
}

#[tokio::test]
async fn threshold_of_the_class_set_decides_what_is_worth_a_visit() {
    let mut lesson = Lesson::new().await;
    lesson.sends("hand_in", "A").await;
    lesson.sends("hand_in", "B").await;
    let findings = [("B", vec![counted(0.62)])];
    lesson.suggest(&findings).await;
    assert_eq!(labels(&lesson.room_page().await), "ABCD");
    let boxes = [("bench", "60"), ("summary", "40")];
    lesson.does("/thresholds", &boxes).await;
    assert_eq!(labels(&lesson.room_page().await), "BACD");
}
