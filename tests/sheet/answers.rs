//! What a group says in its own words, as the teacher reads it.

use crate::support::{Group, Lesson, pairs};

#[tokio::test]
async fn answers_are_shown_as_typed_and_the_uncertainty_beside_the_mean() {
    let mut at = Lesson::handed_in(&Group::CAREFUL).await;
    let page = at.page("/sheets/A").await;
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
    at.keeps("hand_in", &boxes).await;
    let page = at.page("/sheets/A").await;
    let page = page
        .says("<th scope=\"row\">uncertainty of the mean</th>")
        .says("<td class=\"num\"><strong>0.01 m/s</strong></td>");
    page.section("answers")
        .says("How they measured 1 <i>Fill</i> the tank. 2 Count.")
        .says("Their evaluation")
        .says_nothing_of("Their conclusion");
    // What they said before is in the history.
    at.page("/sheets/A/versions/1")
        .await
        .says_nothing_of("In their own words");
}
