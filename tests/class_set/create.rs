use crate::support::{CLASS_SET, Lesson, Part, but, teacher};

#[tokio::test]
async fn form_comes_with_sensible_defaults() {
    let mut teacher = teacher().await;
    let page = teacher.opens("/class-sets/new").await;
    page.says("value=\"2026-11-24\"")
        .says("value=\"10\"")
        .says("<option value=\"ripple-tank\" selected>");
}

#[tokio::test]
async fn class_set_has_its_benches_and_is_in_the_list() {
    let mut at = Lesson::of("string-loops").await;
    assert_eq!(at.code.len(), 5, "{}", at.code);
    let benches = at.page("").await.page().all("th[scope=row]");
    let benches: Vec<_> = benches.iter().map(Part::words).collect();
    assert_eq!(benches, ["A", "B", "C", "D"]);
    let list = at.teacher.opens("/class-sets").await;
    list.says("10B/Ph2")
        .says("Loops on a string")
        .says("24 November 2026")
        .says("0 of 4")
        .says(&at.code);
}

#[tokio::test]
async fn wrong_boxes_are_marked_and_nothing_typed_is_lost() {
    let mut teacher = teacher().await;
    let long = "x".repeat(41);
    for (name, wrong) in [
        ("class", ""),
        ("class", "  "),
        ("class", &long),
        ("method", "soup"),
        ("date", "tomorrow"),
        ("date", "2026-02-30"),
        ("date", "0001-01-01"),
        ("groups", "0"),
        ("groups", "21"),
        ("groups", "-3"),
        ("groups", "ten"),
        ("groups", "2.5"),
    ] {
        let boxes = but(CLASS_SET, name, wrong);
        let page = teacher
            .post_staff("/class-sets/new", &boxes)
            .await
            .expect(422);
        let mut page = page.says(&format!("id=\"{name}-error\""));
        for (n, v) in boxes.iter().filter(|(n, _)| *n != "method") {
            page = page.says(&format!("name=\"{n}\""));
            assert!(page.text.contains(&format!("value=\"{v}\"")), "{n}: {v}");
        }
    }
    teacher.post_staff("/class-sets/new", &[]).await.expect(422);
    teacher.opens("/class-sets").await.says("No class sets yet");
}

#[tokio::test]
async fn what_is_typed_is_shown_as_text() {
    let mut teacher = teacher().await;
    let boxes = but(CLASS_SET, "class", "<b>10B</b>\"'");
    teacher.sends("/class-sets/new", &boxes).await;
    teacher
        .opens("/class-sets")
        .await
        .says("&#60;b&#62;10B")
        .says_nothing_of("<b>10B");
}
