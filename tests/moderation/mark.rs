use super::department::{Department, department, mark_blind, number, own_sheets};
use crate::support::TestApp;

/// Mr Tarn's first anchor of a round that has begun: the department, the
/// round and the sheet.
async fn begun() -> (Department, String, String) {
    let mut at = department().await;
    let round = at.begin(&["A", "B"]).await;
    let sheet = own_sheets(&mut at.tarn, &round).await.remove(0);
    (at, round, sheet)
}

async fn marks(app: &TestApp) -> i64 {
    app.one("SELECT count(*) FROM second_mark").await
}

/// What a press on point 4 sends.
fn point_4<'a>(marks: &'a str, note: &'a str) -> [(&'a str, &'a str); 3] {
    [("point", "4"), ("marks", marks), ("note", note)]
}

#[tokio::test]
async fn mark_is_kept_as_it_is_pressed_and_may_be_changed_or_taken_back() {
    let (mut at, round, sheet) = begun().await;
    let page = at.tarn.opens(&sheet).await;
    page.says("0 of 17 points marked, 0 marks so far.");
    let first = point_4("1", " no unit ");
    let to = at.tarn.sends(&sheet, &first).await;
    // On to the next point without a mark.
    assert_eq!(to.location(), format!("{sheet}#point-5"));
    let page = at.tarn.opens(&sheet).await;
    page.says("1 of 17 points marked, 1 mark so far.")
        .says("<strong>Your mark: 1 of 1</strong>: no unit")
        .says("id=\"note-4\" name=\"note\" class=\"wide\" maxlength=\"1000\" autocomplete=\"off\" value=\"no unit\"");
    // Pressed twice it is kept once.
    at.tarn.sends(&sheet, &first).await;
    assert_eq!(marks(&at.app).await, 1);
    at.tarn.sends(&sheet, &point_4("0", "no unit")).await;
    let page = at.tarn.opens(&sheet).await;
    page.says("1 of 17 points marked, 0 marks so far.")
        .says("<strong>Your mark: 0 of 1</strong>");
    let to = at.tarn.sends(&sheet, &point_4("none", "")).await;
    assert_eq!(to.location(), format!("{sheet}#point-4"));
    let page = at.tarn.opens(&sheet).await;
    page.says("0 of 17 points marked")
        .says_nothing_of("Your mark:");
    assert_eq!(marks(&at.app).await, 3);
    // Nobody else's page shows any of it.
    at.tarn.sends(&sheet, &first).await;
    assert_eq!(own_sheets(&mut at.head, &round).await[0], sheet);
    let page = at.head.opens(&sheet).await;
    page.says("0 of 17 points marked")
        .says_nothing_of("no unit");
}

/// Enter in a box presses the first button of its form, which must not award.
#[tokio::test]
async fn enter_in_the_reason_keeps_it_as_text_and_the_mark_as_it_is() {
    let (mut at, _, sheet) = begun().await;
    let script = "\"><script>alert(1)</script>";
    for (given, note) in [("none", ""), ("1", script)] {
        at.tarn.sends(&sheet, &point_4(given, note)).await;
        let page = at.tarn.opens(&sheet).await;
        let page = page.says_nothing_of("<script>alert");
        let form = page.at("form:has([name=point][value='4'])");
        let html = form.html();
        assert_eq!(html.contains("alert(1)"), note == script, "{html}");
        assert_eq!(form.at("button").attr("value"), given, "{html}");
    }
}

#[tokio::test]
async fn sheet_shows_what_the_group_did_and_what_it_alone_suggests() {
    let (mut at, round, _) = begun().await;
    for sheet in own_sheets(&mut at.tarn, &round).await {
        let page = at.tarn.opens(&sheet).await;
        let forgetful = page.text.contains("group B");
        let page = page
            .says("Readings, as typed")
            .says("22.4 cm")
            .says(" suggested.</strong>");
        assert_eq!(page.count("enlargement left out") > 0, forgetful);
    }
}

#[tokio::test]
async fn complete_sheet_leads_to_the_next_one() {
    let (mut at, round, sheet) = begun().await;
    let next = own_sheets(&mut at.tarn, &round).await.remove(1);
    let page = at.tarn.opens(&sheet).await;
    page.says(&format!("<a href=\"{next}\" data-after>Next sheet</a>"))
        .says_nothing_of("Next sheet to mark");
    mark_blind(&mut at.tarn, &sheet, |_, most| most).await;
    let page = at.tarn.opens(&sheet).await;
    page.says("17 of 17 points marked, 20 marks so far.")
        .says("Every point has a mark: 20 in all.")
        .says(&format!(
            "<a class=\"button\" href=\"{next}\">Next sheet to mark</a>"
        ));
    mark_blind(&mut at.tarn, &next, |_, _| 0).await;
    let page = at.tarn.opens(&next).await;
    page.says(&format!("<a href=\"{sheet}\" data-before>Sheet before</a>"))
        .says_nothing_of("Next sheet");
}

#[tokio::test]
async fn mark_that_cannot_be_is_not_kept() {
    let (mut at, round, sheet) = begun().await;
    for impossible in ["99", "-1", "one", "1.5", ""] {
        let boxes = point_4(impossible, "look");
        let page = at.tarn.post_staff(&sheet, &boxes).await.expect(422);
        page.says("Choose one of the marks that the point has.")
            .says("autocomplete=\"off\" value=\"look\"");
    }
    let long = "é".repeat(1001);
    let boxes = point_4("1", &long);
    let page = at.tarn.post_staff(&sheet, &boxes).await.expect(422);
    page.says("id=\"note-4-error\" role=\"alert\">Use at most 1000 characters")
        .says(&long)
        .says("0 of 17 points marked");
    for point in ["99", ""] {
        let boxes = [("point", point), ("marks", "1")];
        at.tarn.post_staff(&sheet, &boxes).await.expect(404);
    }
    let unknown = format!("{round}/sheets/999");
    at.tarn.get(&unknown).await.expect(404);
    assert_eq!(marks(&at.app).await, 0);
}

#[tokio::test]
async fn nobody_but_its_marker_opens_a_sheet() {
    let (mut at, _, sheet) = begun().await;
    let boxes = point_4("1", "");
    at.gill.get(&sheet).await.expect(403);
    at.gill.post_staff(&sheet, &boxes).await.expect(403);
    let to = at.pupil.get(&sheet).await.expect(303);
    assert_eq!(to.location(), "/staff/sign-in");
    at.pupil.post(&sheet, &boxes).await.expect(303);
    assert_eq!(marks(&at.app).await, 0);
    // A sheet of one round is none of another's.
    let other = at.make_round(&["Mrs Gill"]).await;
    let elsewhere = format!("{other}/sheets/{}", number(&sheet));
    at.tarn.get(&elsewhere).await.expect(404);
}

/// The form is not the only guard: the data file takes no mark either.
#[tokio::test]
async fn data_file_takes_no_mark_once_they_are_shown_and_changes_none() {
    let (mut at, round, sheet) = begun().await;
    at.tarn.sends(&sheet, &point_4("1", "")).await;
    at.show(&round).await;
    let refused = [
        "INSERT INTO second_mark (round_sheet_id, marking_point_id, awarded, note, staff_id, marked_at)
         SELECT round_sheet_id, marking_point_id, 0, '', staff_id, marked_at FROM second_mark",
        "UPDATE second_mark SET awarded = 0",
        "DELETE FROM second_mark",
        "UPDATE round_sheet SET place = 9",
        "DELETE FROM round_sheet",
        "UPDATE moderation_round SET seed = 'mine'",
        "DELETE FROM round_marker",
        "DELETE FROM round_class_set",
        "UPDATE round_step SET step = 'drawn'",
    ];
    at.app.refuses(&refused).await;
}
