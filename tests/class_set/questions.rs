//! Questions for the teacher alone, in the class summary.

use crate::support::{Browser, Group, TestApp, pairs};

/// Groups A and B have the same readings, to the digit; C and D have their own.
/// What B says of whose they are.
async fn two_alike<'a>(app: &'a TestApp, said: &str) -> (Browser<'a>, Browser<'a>, String, String) {
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    Group::CAREFUL.sends("hand_in", app, &code, "A").await;
    for (level, label) in [(0.98, "C"), (1.03, "D")] {
        let other = Group::CAREFUL.level(level);
        other.sends("hand_in", app, &code, label).await;
    }
    let mut pupil = app.browser();
    pupil.take_bench(&code, "B").await;
    let url = format!("/c/{code}/B");
    let mut boxes = Group::CAREFUL.boxes();
    boxes.push(("shared".to_owned(), said.to_owned()));
    let boxes = pairs(&boxes);
    pupil.keeps(&url, "hand_in", &boxes).await;
    (teacher, pupil, set, url)
}

#[tokio::test]
async fn readings_that_agree_beyond_chance_are_a_question_folded_away() {
    let app = TestApp::new().await;
    let (mut teacher, _, set, _) = two_alike(&app, "").await;
    tell_everything(&mut teacher, &set).await;
    let page = teacher.opens(&format!("{set}/summary")).await;
    let questions = page.section("questions").says("For you alone");
    assert_eq!(questions.attr("class"), "no-print");
    let folded = questions.at("details:not([open])");
    for label in ["A", "B"] {
        folded.at(&format!("a[href='{set}/sheets/{label}']"));
    }
    folded
        .says("1 question that the readings raise")
        .says("are the same, digit for digit, in all 5 rows. Did they share one set of readings?");
}

/// Five rows to the millimetre among four groups say less than one half. Has
/// it told.
async fn tell_everything(teacher: &mut Browser<'_>, set: &str) {
    let thresholds = [("bench", "80"), ("summary", "5")];
    teacher
        .sends(&format!("{set}/thresholds"), &thresholds)
        .await;
}

#[tokio::test]
async fn question_below_the_threshold_is_not_asked() {
    let app = TestApp::new().await;
    let (mut teacher, _, set, _) = two_alike(&app, "").await;
    let page = teacher.opens(&format!("{set}/summary")).await;
    page.says_nothing_of("For you alone");
}

#[tokio::test]
async fn declared_shared_set_is_not_asked_about() {
    let app = TestApp::new().await;
    let (mut teacher, _, set, _) = two_alike(&app, "Group A").await;
    tell_everything(&mut teacher, &set).await;
    let page = teacher.opens(&format!("{set}/summary")).await;
    page.says_nothing_of("For you alone")
        .says("readings said to be shared: Group A");
}

#[tokio::test]
async fn pupils_never_see_the_question() {
    let app = TestApp::new().await;
    let (mut teacher, mut pupil, set, url) = two_alike(&app, "").await;
    tell_everything(&mut teacher, &set).await;
    teacher.opens(&format!("{set}/summary")).await;
    for page in [url.clone(), url[..8].to_owned()] {
        pupil
            .opens(&page)
            .await
            .says_nothing_of("one set of readings")
            .says_nothing_of("digit for digit");
    }
    teacher
        .sends(&format!("{set}/state"), &[("state", "closed")])
        .await;
    pupil.opens(&url).await.says_nothing_of("digit for digit");
}
