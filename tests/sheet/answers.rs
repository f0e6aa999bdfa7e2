//! What a group says in its own words, as the teacher reads it.

use super::handed_in;
use crate::support::{Group, TestApp};

#[tokio::test]
async fn answers_are_shown_as_typed_and_the_uncertainty_beside_the_mean() {
    let app = TestApp::new().await;
    let mut handed = handed_in(&app, &Group::CAREFUL).await;
    let page = handed.teacher.get(&handed.sheet).await.expect(200);
    page.says_nothing_of("In their own words");
    let draft = handed.pupil.open_sheet(&handed.bench).await;
    let mut boxes = Group::CAREFUL.boxes();
    for (name, text) in [
        ("words.method", "1 <i>Fill</i> the tank.\r\n2 Count."),
        ("words.evaluation", "The spread was small."),
        ("w.uncertainty", "0.01"),
        ("unit.uncertainty", "m/s"),
    ] {
        boxes.push((name.to_owned(), text.to_owned()));
    }
    let boxes: Vec<_> = boxes
        .iter()
        .map(|(n, v)| (n.as_str(), v.as_str()))
        .collect();
    handed
        .pupil
        .send_sheet(&handed.bench, &draft, "hand_in", &boxes)
        .await
        .expect(303);
    let page = handed.teacher.get(&handed.sheet).await.expect(200);
    let page = page
        .says("<th scope=\"row\">uncertainty of the mean</th>")
        .says("<td class=\"num yours\">0.01 m/s</td>");
    page.part("id=\"answers\"", "</section>")
        .says("<h3>How they measured</h3>")
        .says("<p class=\"as-typed\">1 &#60;i&#62;Fill&#60;/i&#62; the tank.\n2 Count.</p>")
        .says("<h3>Their evaluation</h3>")
        .says_nothing_of("Their conclusion");
    // What they said before is in the history.
    let before = format!("{}/versions/1", handed.sheet);
    handed
        .teacher
        .get(&before)
        .await
        .expect(200)
        .says_nothing_of("In their own words");
}
