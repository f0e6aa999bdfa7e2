//! Whose readings a group says that it uses.

use crate::support::Lesson;

#[tokio::test]
async fn what_was_typed_is_kept_and_shown_again() {
    let mut at = Lesson::at_bench().await;
    let boxes = [("r1.dial", "10"), ("shared", "group B & friends")];
    at.keeps("hand_in", &boxes).await;
    at.reads()
        .await
        .says("name=\"shared\" value=\"group B &#38; friends\"");
}

#[tokio::test]
async fn blank_means_their_own_and_is_not_written_down() {
    let mut at = Lesson::at_bench().await;
    let boxes = [("r1.dial", "10"), ("shared", "")];
    at.keeps("save", &boxes).await;
    let body: String = at.app.one("SELECT body FROM revision").await;
    assert!(!body.contains("shared"), "{body}");
}

#[tokio::test]
async fn text_that_is_too_long_comes_back_whole_with_a_link_to_its_box() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let long = "é".repeat(41);
    let boxes = [
        ("r1.dial", "10"),
        ("shared", long.as_str()),
        ("kit", long.as_str()),
    ];
    let page = at.send(&draft, "save", &boxes).await.expect(422);
    assert_eq!(page.count(&format!("value=\"{long}\"")), 2, "{}", page.text);
    page.says("put these 2 boxes right")
        .says("<a href=\"#shared\">Where the readings are from.")
        .says("id=\"shared-error\"")
        .says("aria-describedby=\"shared-hint shared-error\" aria-invalid=\"true\"");
}

#[tokio::test]
async fn versions_that_differ_in_it_are_shown_side_by_side() {
    let mut at = Lesson::at_bench().await;
    let first = at.draft().await;
    let mine = [("r1.dial", "10"), ("shared", "set 1")];
    at.send(&first, "save", &mine).await.expect(303);
    let theirs = [("r1.dial", "10"), ("shared", "set 2")];
    at.send(&first, "save", &theirs)
        .await
        .expect(409)
        .says("<th scope=\"row\">Readings from</th><td>set 1</td><td>set 2</td>");
}
