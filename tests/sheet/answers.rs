//! What a group says in its own words, as the teacher reads it.

use super::handed_in;
use crate::support::{Group, TestApp, pairs};

#[tokio::test]
async fn answers_are_shown_as_typed_and_the_uncertainty_beside_the_mean() {
    let app = TestApp::new().await;
    let mut handed = handed_in(&app, &Group::CAREFUL).await;
    let page = handed.teacher.opens(&handed.sheet).await;
    page.says_nothing_of("In their own words");
    let mut boxes = Group::CAREFUL.boxes();
    for (name, text) in [
        ("words.method", "1 <i>Fill</i> the tank.\r\n2 Count."),
        ("words.evaluation", "The spread was small."),
        ("w.uncertainty", "0.01"),
        ("unit.uncertainty", "m/s"),
    ] {
        boxes.push((name.to_owned(), text.to_owned()));
    }
    let boxes = pairs(&boxes);
    handed.pupil.keeps(&handed.bench, "hand_in", &boxes).await;
    let page = handed.teacher.opens(&handed.sheet).await;
    let page = page
        .says("<th scope=\"row\">uncertainty of the mean</th>")
        .says("<td class=\"num\"><strong>0.01 m/s</strong></td>");
    page.section("answers")
        .says("How they measured 1 <i>Fill</i> the tank. 2 Count.")
        .says("Their evaluation")
        .says_nothing_of("Their conclusion");
    // What they said before is in the history.
    let before = format!("{}/versions/1", handed.sheet);
    handed
        .teacher
        .opens(&before)
        .await
        .says_nothing_of("In their own words");
}
