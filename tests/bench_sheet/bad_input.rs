use analysis::field::{Field, Place};
use analysis::method::Method;

use super::{BOXES, revisions};
use crate::support::Lesson;

/// The name of a box, in the second row if it is of one.
pub(crate) fn box_of(field: Field) -> String {
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
        let mut at = Lesson::of(method.code()).await.begun().await;
        let draft = at.draft().await;
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
                let page = at.send(&draft, "hand_in", &boxes).await.expect(422);
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
        assert_eq!(revisions(&at.app).await, 0);
    }
}

#[tokio::test]
async fn negative_lengths_and_backward_counts_are_refused() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    for boxes in [
        [("r1.span", "-3"), ("r1.dial", "10")],
        [("r1.span", "0"), ("r1.dial", "10")],
        [("w.scale_true", "−8"), ("r1.dial", "10")],
        [("r1.first_crest", "8"), ("r1.last_crest", "3")],
        [("r1.last_crest", "3.5"), ("r1.dial", "10")],
    ] {
        at.send(&draft, "save", &boxes)
            .await
            .expect(422)
            .says("field-error");
    }
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn unit_that_is_none_is_marked_at_its_list() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    for unit in ["furlong", "m/s", "<b>"] {
        let boxes = [("r1.span", "3"), ("r2.span", "4"), ("unit.span", unit)];
        let page = at.send(&draft, "save", &boxes).await.expect(422);
        page.says("href=\"#unit.span\"")
            .says("id=\"unit.span-error\"")
            .says("Nothing is saved yet: put this box right")
            .says_nothing_of("<b>");
    }
}

#[tokio::test]
async fn error_list_follows_the_page() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let boxes = [
        ("w.gradient", "x"),
        ("r2.speed", "x"),
        ("r1.span", "x"),
        ("w.scale_true", "x"),
    ];
    let page = at
        .send(&draft, "hand_in", &boxes)
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
    let mut at = Lesson::at_bench().await;
    for draft in ["", "nonsense", "00000000-0000-4000-8000-000000000000"] {
        let page = at.send(draft, "hand_in", &BOXES).await.expect(409);
        let fresh = page
            .says("too old to be kept")
            .says("value=\"22.4\"")
            .hidden("draft");
        assert_eq!(fresh.len(), 36);
    }
    at.pupil.post(&at.bench, &[]).await.expect(409);
    assert_eq!(revisions(&at.app).await, 0);
    let fresh = at.send("", "hand_in", &BOXES).await.hidden("draft");
    at.send(&fresh, "hand_in", &BOXES).await.expect(303);
}

#[tokio::test]
async fn another_groups_sheet_and_draft_are_out_of_reach() {
    let mut at = Lesson::at_bench().await;
    let sheet_b = at.own("B");
    let mut b = at.app.browser();
    b.take_bench(&at.code, "B").await;
    let draft_b = b.open_sheet(&sheet_b).await;
    // B's address from A's browser: refused, and what was typed is shown.
    let mut a = at.tab();
    let page = a.send_sheet(&sheet_b, &draft_b, "hand_in", &BOXES).await;
    page.expect(403).says("come-back number").says("22.4 cm");
    // B's draft on A's sheet: not a key of this sheet.
    at.send(&draft_b, "hand_in", &BOXES).await.expect(409);
    let mut nobody = at.app.browser();
    let page = nobody.send_sheet(&at.bench, &draft_b, "hand_in", &BOXES);
    page.await.expect(403);
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn over_long_bodies_and_kits_are_refused() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let long = "x".repeat(70_000);
    at.send(&draft, "save", &[("r1.dial", &long)])
        .await
        .expect(413);
    let kit = "k".repeat(41);
    let page = at.send(&draft, "save", &[("kit", &kit)]).await.expect(422);
    page.says("href=\"#kit\"")
        .says("id=\"kit-error\"")
        .says(&kit);
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn typed_markup_is_shown_as_text() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let boxes = [
        ("r1.dial", "\"><script>alert(1)</script>"),
        ("kit", "<img src=x>"),
    ];
    let page = at.send(&draft, "save", &boxes).await.expect(422);
    page.says_nothing_of("<script>alert")
        .says_nothing_of("<img");
}

#[tokio::test]
async fn unknown_boxes_and_buttons_do_no_harm() {
    let mut at = Lesson::at_bench().await;
    let boxes = [
        ("r1.dial", "10"),
        ("r1.loops", "3"),
        ("r99.dial", "1"),
        ("w.nonsense", "1"),
        ("role", "head"),
    ];
    at.keeps("explode", &boxes).await;
    at.reads().await.says("Saved at 10:42");
    for act in ["repeat.0", "repeat.99", "repeat.x"] {
        let draft = at.draft().await;
        let status = at
            .send(&draft, act, &[("r1.dial", "10")])
            .await
            .status
            .as_u16();
        assert!(status == 200 || status == 303, "{act}: {status}");
    }
    assert_eq!(revisions(&at.app).await, 1);
}
