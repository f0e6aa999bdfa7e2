//! Questions for the teacher alone, in the class summary.

use crate::support::{Group, Lesson, pairs};

/// Groups A and B have the same readings, to the digit; C and D have their own.
/// What A says of whose they are.
async fn two_alike(said: &str) -> Lesson {
    let mut at = Lesson::at_bench().await;
    for (level, label) in [(1.0, "B"), (0.98, "C"), (1.03, "D")] {
        at.hands_in(&Group::CAREFUL.level(level), label).await;
    }
    let mut boxes = Group::CAREFUL.boxes();
    boxes.push(("shared".to_owned(), said.to_owned()));
    at.keeps("hand_in", &pairs(&boxes)).await;
    at
}

#[tokio::test]
async fn readings_that_agree_beyond_chance_are_a_question_folded_away() {
    let mut at = two_alike("").await;
    tell_everything(&mut at).await;
    let page = at.page("/summary").await;
    let questions = page.section("questions").says("For you alone");
    assert_eq!(questions.attr("class"), "no-print");
    let folded = questions.at("details:not([open])");
    for label in ["A", "B"] {
        folded.at(&format!("a[href='{}/sheets/{label}']", at.set));
    }
    folded
        .says("1 question that the readings raise")
        .says("are the same, digit for digit, in all 5 rows. Did they share one set of readings?");
}

/// Five rows to the millimetre among four groups say less than one half. Has
/// it told.
async fn tell_everything(at: &mut Lesson) {
    let thresholds = [("bench", "80"), ("summary", "5")];
    at.does("/thresholds", &thresholds).await;
}

#[tokio::test]
async fn question_below_the_threshold_is_not_asked() {
    let mut at = two_alike("").await;
    let page = at.page("/summary").await;
    page.says_nothing_of("For you alone");
}

#[tokio::test]
async fn declared_shared_set_is_not_asked_about() {
    let mut at = two_alike("Group B").await;
    tell_everything(&mut at).await;
    let page = at.page("/summary").await;
    page.says_nothing_of("For you alone")
        .says("readings said to be shared: Group B");
}

#[tokio::test]
async fn pupils_never_see_the_question() {
    let mut at = two_alike("").await;
    tell_everything(&mut at).await;
    at.page("/summary").await;
    for page in [at.bench.clone(), at.bench[..8].to_owned()] {
        at.pupil
            .opens(&page)
            .await
            .says_nothing_of("one set of readings")
            .says_nothing_of("digit for digit");
    }
    at.closes().await;
    at.reads().await.says_nothing_of("digit for digit");
}
