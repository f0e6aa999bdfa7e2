use analysis::field::{Field, Place};
use analysis::method::Method;

use super::{BOXES, at_bench, revisions};
use crate::support::TestApp;

/// Address of the sheet of bench A of a class set for this method.
async fn sheet_for(app: &TestApp, method: Method) -> (crate::support::Browser<'_>, String) {
    let (_, code) = app.teacher().await.make_class_set(method.code()).await;
    let mut pupil = app.browser();
    pupil.take_bench(&code, "A").await;
    (pupil, format!("/c/{code}/A"))
}

fn box_of(field: Field) -> String {
    let place = if field.place() == Place::Row {
        "r2"
    } else {
        "w"
    };
    format!("{place}.{}", field.name())
}

#[tokio::test]
async fn wrong_text_in_any_box_comes_back_with_a_reason_beside_it() {
    let long = "9".repeat(400);
    for method in Method::ALL {
        let app = TestApp::new().await;
        let (mut pupil, sheet) = sheet_for(&app, method).await;
        let draft = pupil.open_sheet(&sheet).await;
        for field in method.fields() {
            let name = box_of(field);
            for wrong in [
                "letters",
                "1.2.3",
                "inf",
                "NaN",
                "--3",
                "5 furlongs",
                long.as_str(),
            ] {
                // The dial makes a row of what would else be a lone multiplier.
                let boxes = [("r2.dial", "20"), (name.as_str(), wrong), ("r1.dial", "10")];
                let page = pupil
                    .send_sheet(&sheet, &draft, "hand_in", &boxes)
                    .await
                    .expect(422);
                let page = page
                    .says(&format!("href=\"#{name}\""))
                    .says(&format!("id=\"{name}-error\""));
                let page = page
                    .says("aria-invalid=\"true\"")
                    .says(&format!("{name}-error "))
                    .says("Nothing is saved yet");
                page.says(wrong).says("name=\"r1.dial\" value=\"10\"");
            }
        }
        assert_eq!(revisions(&app).await, 0);
    }
}

#[tokio::test]
async fn negative_lengths_and_backward_counts_are_refused() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    for boxes in [
        [("r1.span", "-3"), ("r1.dial", "10")],
        [("r1.span", "0"), ("r1.dial", "10")],
        [("w.scale_true", "−8"), ("r1.dial", "10")],
        [("r1.first_crest", "8"), ("r1.last_crest", "3")],
        [("r1.last_crest", "3.5"), ("r1.dial", "10")],
    ] {
        pupil
            .send_sheet(&sheet, &draft, "save", &boxes)
            .await
            .expect(422)
            .says("field-error");
    }
    assert_eq!(revisions(&app).await, 0);
}

#[tokio::test]
async fn unit_that_is_none_is_marked_at_its_list() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    for unit in ["furlong", "m/s", "<b>"] {
        let boxes = [("r1.span", "3"), ("r2.span", "4"), ("unit.span", unit)];
        let page = pupil
            .send_sheet(&sheet, &draft, "save", &boxes)
            .await
            .expect(422);
        page.says("href=\"#unit.span\"")
            .says("id=\"unit.span-error\"")
            .says("Nothing is saved yet: put this box right")
            .says_nothing_of("<b>");
    }
}

#[tokio::test]
async fn error_list_follows_the_page() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    let boxes = [
        ("w.gradient", "x"),
        ("r2.speed", "x"),
        ("r1.span", "x"),
        ("w.scale_true", "x"),
    ];
    let page = pupil
        .send_sheet(&sheet, &draft, "hand_in", &boxes)
        .await
        .expect(422)
        .says("put these 4 boxes right");
    let links = page.at("[aria-labelledby=complaints]").all("a");
    let links: Vec<_> = links.iter().map(|link| link.attr("href")).collect();
    let order = ["#w.scale_true", "#r1.span", "#r2.speed", "#w.gradient"];
    assert_eq!(links, order);
}

#[tokio::test]
async fn sheet_without_its_key_is_not_kept_and_not_lost() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    for draft in ["", "nonsense", "00000000-0000-4000-8000-000000000000"] {
        let page = pupil
            .send_sheet(&sheet, draft, "hand_in", &BOXES)
            .await
            .expect(409);
        let fresh = page
            .says("too old to be kept")
            .says("value=\"22.4\"")
            .hidden("draft");
        assert_eq!(fresh.len(), 36);
    }
    pupil.post(&sheet, &[]).await.expect(409);
    assert_eq!(revisions(&app).await, 0);
    let fresh = pupil
        .send_sheet(&sheet, "", "hand_in", &BOXES)
        .await
        .hidden("draft");
    pupil
        .send_sheet(&sheet, &fresh, "hand_in", &BOXES)
        .await
        .expect(303);
}

#[tokio::test]
async fn another_groups_sheet_and_draft_are_out_of_reach() {
    let app = TestApp::new().await;
    let (mut a, sheet_a, _) = at_bench(&app).await;
    let code = sheet_a.split('/').nth(2).unwrap().to_owned();
    let mut b = app.browser();
    b.take_bench(&code, "B").await;
    let draft_b = b.open_sheet(&format!("/c/{code}/B")).await;
    // B's address from A's browser: refused, and what was typed is shown.
    let page = a
        .send_sheet(&format!("/c/{code}/B"), &draft_b, "hand_in", &BOXES)
        .await
        .expect(403);
    page.says("come-back number").says("22.4 cm");
    // B's draft on A's sheet: not a key of this sheet.
    a.send_sheet(&sheet_a, &draft_b, "hand_in", &BOXES)
        .await
        .expect(409);
    app.browser()
        .send_sheet(&sheet_a, &draft_b, "hand_in", &BOXES)
        .await
        .expect(403);
    assert_eq!(revisions(&app).await, 0);
}

#[tokio::test]
async fn over_long_bodies_and_kits_are_refused() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    let long = "x".repeat(70_000);
    pupil
        .send_sheet(&sheet, &draft, "save", &[("r1.dial", &long)])
        .await
        .expect(413);
    let kit = "k".repeat(41);
    let page = pupil
        .send_sheet(&sheet, &draft, "save", &[("kit", &kit)])
        .await
        .expect(422);
    page.says("href=\"#kit\"")
        .says("id=\"kit-error\"")
        .says(&kit);
    assert_eq!(revisions(&app).await, 0);
}

#[tokio::test]
async fn typed_markup_is_shown_as_text() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    let boxes = [
        ("r1.dial", "\"><script>alert(1)</script>"),
        ("kit", "<img src=x>"),
    ];
    let page = pupil
        .send_sheet(&sheet, &draft, "save", &boxes)
        .await
        .expect(422);
    page.says_nothing_of("<script>alert")
        .says_nothing_of("<img");
}

#[tokio::test]
async fn unknown_boxes_and_buttons_do_no_harm() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let boxes = [
        ("r1.dial", "10"),
        ("r1.loops", "3"),
        ("r99.dial", "1"),
        ("w.nonsense", "1"),
        ("role", "head"),
    ];
    pupil.keeps(&sheet, "explode", &boxes).await;
    pupil.get(&sheet).await.says("Saved at 10:42");
    for act in ["repeat.0", "repeat.99", "repeat.x"] {
        let draft = pupil.open_sheet(&sheet).await;
        let status = pupil
            .send_sheet(&sheet, &draft, act, &[("r1.dial", "10")])
            .await
            .status
            .as_u16();
        assert!(status == 200 || status == 303, "{act}: {status}");
    }
    assert_eq!(revisions(&app).await, 1);
}
