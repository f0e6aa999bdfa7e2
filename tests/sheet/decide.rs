use crate::support::{Group, Lesson, TestApp, pairs};

/// Boxes of a form for the slip of [`Group::FORGETFUL`].
fn form<'a>(revision: &'a str, verdict: &'a str) -> [(&'a str, &'a str); 6] {
    [
        ("revision", revision),
        ("step", "wavelength"),
        ("slip", "scale-left-out"),
        ("row", ""),
        ("verdict", verdict),
        ("reason", "they measured in the water"),
    ]
}

async fn decisions(app: &TestApp) -> i64 {
    app.one("SELECT count(*) FROM decision").await
}

#[tokio::test]
async fn confirmed_slip_says_who_confirmed_it_and_stays() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let reply = at.decides("slip-0", "confirmed", "").await;
    assert_eq!(reply.location(), format!("{}#slip-0", at.sheet));
    at.page("/sheets/A")
        .await
        .says("<strong>Confirmed</strong> by Ms Fell</p>");
    at.page("/summary").await.says("wavelength, every row");
}

#[tokio::test]
async fn dismissed_slip_leaves_the_summary_and_keeps_its_reason() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    at.decides("slip-0", "dismissed", "measured in the water")
        .await;
    at.page("/sheets/A")
        .await
        .says("<strong>Dismissed</strong> by Ms Fell: measured in the water</p>");
    at.page("/summary")
        .await
        .says("None that the groups’ own figures show.")
        .says("dismissed: wavelength, every row")
        .lacks("li .slip.shown");
}

#[tokio::test]
async fn newest_word_wins_and_both_are_kept() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    at.decides("slip-0", "dismissed", "no").await;
    at.decides("slip-0", "confirmed", "yes after all").await;
    at.page("/sheets/A")
        .await
        .says("<strong>Confirmed</strong> by Ms Fell: yes after all")
        .says_nothing_of("<strong>Dismissed</strong>");
    at.page("/summary").await.says("wavelength, every row");
    assert_eq!(decisions(&at.app).await, 2);
}

#[tokio::test]
async fn dismissing_needs_a_reason() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let page = at.sends_word("slip-0", "dismissed", "  ").await;
    page.expect(422)
        .says("id=\"reason-slip-0-error\">Say why it is no slip.</span>")
        .says("aria-describedby=\"reason-slip-0-error\"");
    assert_eq!(decisions(&at.app).await, 0);
}

#[tokio::test]
async fn reason_that_is_too_long_is_given_back_whole() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let long = "é".repeat(1001);
    let page = at.sends_word("slip-0", "dismissed", &long).await;
    page.expect(422)
        .says("id=\"reason-slip-0-error\">Use at most 1000 characters.</span>")
        .says(&format!("value=\"{long}\""));
    assert_eq!(decisions(&at.app).await, 0);
    let longest = "é".repeat(1000);
    at.decides("slip-0", "dismissed", &longest).await;
}

#[tokio::test]
async fn decision_holds_for_the_same_slip_when_the_group_hands_in_again() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    at.decides("slip-0", "dismissed", "agreed with them").await;
    let again = Group::FORGETFUL.level(1.02);
    at.sends_again(&again, "hand_in").await;
    at.page("/sheets/A").await
        .says("<strong>Dismissed</strong> by Ms Fell on an earlier version of the sheet: agreed with them");
    at.page("/summary")
        .await
        .says("dismissed: wavelength, every row")
        .lacks("li .slip.shown");
}

#[tokio::test]
async fn decision_does_not_reach_another_slip() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    at.decides("slip-0", "dismissed", "no").await;
    // The group mends its wavelengths, and spoils one of its speeds.
    let mut boxes = Group::CAREFUL.boxes();
    for (name, text) in &mut boxes {
        if name == "r2.speed" {
            "0.999".clone_into(text);
        }
    }
    let boxes = pairs(&boxes);
    at.keeps("hand_in", &boxes).await;
    let page = at.page("/sheets/A").await;
    page.says("speed, row 2")
        .says_nothing_of("Dismissed</strong>");
}

#[tokio::test]
async fn slip_of_an_earlier_version_cannot_be_decided() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let stale = at.page("/sheets/A").await.hidden("revision");
    let again = Group::FORGETFUL.level(1.02);
    at.sends_again(&again, "hand_in").await;
    at.posts("/sheets/A/decision", &form(&stale, "dismissed"))
        .await
        .expect(404)
        .says("does not show this slip any more");
    for revision in ["", "x", "-1", "99999999999999999999"] {
        at.posts("/sheets/A/decision", &form(revision, "dismissed"))
            .await
            .expect(404);
    }
    assert_eq!(decisions(&at.app).await, 0);
}

#[tokio::test]
async fn slip_that_the_sheet_does_not_show_cannot_be_decided() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let now = at.page("/sheets/A").await.hidden("revision");
    for (name, wrong) in [
        ("slip", "speed-inverted"),
        ("slip", ""),
        ("step", "speed"),
        ("row", "1"),
    ] {
        let mut boxes = form(&now, "confirmed");
        for pair in &mut boxes {
            if pair.0 == name {
                pair.1 = wrong;
            }
        }
        at.posts("/sheets/A/decision", &boxes).await.expect(404);
    }
    assert_eq!(decisions(&at.app).await, 0);
}

#[tokio::test]
async fn slip_is_confirmed_or_dismissed_and_nothing_else() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    for verdict in ["", "maybe", "Confirmed"] {
        at.sends_word("slip-0", verdict, "because")
            .await
            .expect(400)
            .says("Nothing was changed.");
    }
    assert_eq!(decisions(&at.app).await, 0);
}

#[tokio::test]
async fn form_of_one_class_set_does_nothing_in_another() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let (other, code) = at.teacher.make_class_set("ripple-tank").await;
    let (_pupil, _) = Group::FORGETFUL.sends("hand_in", &at.app, &code, "A").await;
    let now = at.page("/sheets/A").await.hidden("revision");
    for bench in ["A", "B", "Z"] {
        let url = format!("{other}/sheets/{bench}/decision");
        at.teacher
            .post_staff(&url, &form(&now, "dismissed"))
            .await
            .expect(404);
    }
    assert_eq!(decisions(&at.app).await, 0);
}

#[tokio::test]
async fn reason_is_shown_as_text() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    at.decides("slip-0", "dismissed", "<script>alert(2)</script>")
        .await;
    at.page("/sheets/A")
        .await
        .says_nothing_of("<script>alert")
        .says("alert(2)");
}
