use super::revisions;
use crate::support::{Lesson, teacher};

const TYPED: [(&str, &str); 5] = [
    ("r1.dial", "10"),
    ("r1.dial_times", "10"),
    ("r2.span", "2O"),
    ("r2.left_out", "yes"),
    ("kit", "Tank 3"),
];

#[tokio::test]
async fn empty_sheet_shows_five_rows_and_no_receipt() {
    let mut at = Lesson::at_bench().await;
    let page = at.reads().await.lacks("[name='r6.span']");
    page.at("[name='r5.span']");
    page.says_nothing_of("Kept")
        .says("1 The enlargement")
        .says("2 Your readings")
        .says("3 Your working")
        .says("4 Your result");
}

#[tokio::test]
async fn more_rows_keep_everything_typed_and_store_nothing() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let page = at
        .send(&draft, "rows", &TYPED)
        .await
        .expect(200)
        .says("name=\"r7.span\"")
        .says("Two rows were added. Nothing is saved yet.");
    assert_eq!(page.hidden("draft"), draft);
    let page = page
        .says("name=\"r2.span\" value=\"2O\"")
        .says("name=\"r2.left_out\" value=\"yes\"")
        .says("checked");
    page.says("name=\"kit\" value=\"Tank 3\"")
        .says("<option value=\"10\" selected>×10</option>");
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn measuring_again_copies_the_dial() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let page = at.send(&draft, "repeat.1", &TYPED).await.expect(200);
    page.at("[name='r3.first_crest'][autofocus]");
    page.says("name=\"r3.dial\" value=\"10\"")
        .says("Row 3 is ready: the same frequency as row 1. It is not saved yet.")
        .says("name=\"r3.span\" value=\"\"")
        .says("name=\"r2.span\" value=\"2O\"");
}

#[tokio::test]
async fn empty_rows_are_not_stored() {
    let mut at = Lesson::at_bench().await;
    let boxes = [
        ("r1.dial", "10"),
        ("r2.dial_times", "10"),
        ("r4.dial", "30"),
        ("r4.label", "4"),
    ];
    at.keeps("save", &boxes).await;
    let body: String = at.app.one("SELECT body FROM revision").await;
    assert_eq!(
        body,
        r#"{"sheet":{"method":"ripple-tank","whole":{},"rows":[{"label":"1","cells":{"dial":{"text":"10"}},"left_out":false},{"label":"4","cells":{"dial":{"text":"30"}},"left_out":false}]},"kit":""}"#
    );
}

#[tokio::test]
async fn kit_of_the_department_is_tied_to_the_sheet() {
    let mut teacher = teacher().await;
    teacher
        .sends("/kits", &[("label", "Tank 3"), ("kind", "tank")])
        .await;
    let (_, code) = teacher.make_class_set("ripple-tank").await;
    let mut pupil = teacher.app.browser();
    pupil.take_bench(&code, "A").await;
    let sheet = format!("/c/{code}/A");
    let draft = pupil
        .opens(&sheet)
        .await
        .says("<option value=\"Tank 3\">")
        .hidden("draft");
    pupil
        .send_sheet(&sheet, &draft, "save", &[("kit", " tank 3")])
        .await
        .expect(303);
    let tied: i64 = teacher.app.one("SELECT count(kit_id) FROM sheet").await;
    assert_eq!(tied, 1);
}

#[tokio::test]
async fn times_one_is_recorded_only_when_it_was_chosen() {
    let mut at = Lesson::at_bench().await;
    let page = at.reads().await;
    page.says("<option value=\"\" selected>choose</option>")
        .says("<option value=\"1\">×1</option>");
    let boxes = [
        ("r1.dial", "10"),
        ("r1.dial_times", "1"),
        ("r2.dial", "20"),
        ("r2.dial_times", ""),
    ];
    at.keeps("save", &boxes).await;
    at.reads()
        .await
        .says("<option value=\"1\" selected>×1</option>");
    let chosen: i64 = sqlx::query_scalar(
        "SELECT (length(body) - length(replace(body, 'dial_times', ''))) / length('dial_times') FROM revision",
    )
    .fetch_one(&mut at.app.sql().await)
    .await
    .unwrap();
    assert_eq!(chosen, 1);
}
