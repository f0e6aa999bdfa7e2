use super::{at_bench, revisions};
use crate::support::{Browser, TestApp};

/// The same browser in another tab.
fn tab<'a>(app: &'a TestApp, of: &Browser<'_>) -> Browser<'a> {
    let mut tab = app.browser();
    tab.set_cookie("visit", &of.cookie("visit").unwrap());
    tab
}

#[tokio::test]
async fn later_tab_is_shown_both_versions_and_may_keep_the_stored_one() {
    let app = TestApp::new().await;
    let (mut one, sheet, _) = at_bench(&app).await;
    let mut two = tab(&app, &one);
    let (draft_one, draft_two) = (one.open_sheet(&sheet).await, two.open_sheet(&sheet).await);
    one.send_sheet(
        &sheet,
        &draft_one,
        "save",
        &[("r1.dial", "10"), ("r1.span", "22.4")],
    )
    .await
    .expect(303);
    let page = two
        .send_sheet(
            &sheet,
            &draft_two,
            "hand_in",
            &[("r1.dial", "10"), ("r1.span", "23.4")],
        )
        .await
        .expect(409);
    page.says("two versions")
        .says("<td>22.4</td><td>23.4</td>")
        .says("<td>10 Hz</td>")
        .says_nothing_of("kept too");
    assert_eq!(revisions(&app).await, 1);
    two.get(&sheet).await.says("value=\"22.4\"");
}

#[tokio::test]
async fn later_tab_may_put_its_own_in_place() {
    let app = TestApp::new().await;
    let (mut one, sheet, _) = at_bench(&app).await;
    let mut two = tab(&app, &one);
    let draft = one.open_sheet(&sheet).await;
    one.send_sheet(&sheet, &draft, "save", &[("r1.span", "22.4")])
        .await
        .expect(303);
    let page = two
        .send_sheet(
            &sheet,
            &draft,
            "hand_in",
            &[("r1.span", "23.4"), ("unit.span", "mm")],
        )
        .await
        .expect(409);
    assert_eq!(page.hidden("r1.span"), "23.4");
    assert_eq!(page.hidden("unit.span"), "mm");
    let fresh = page.hidden("draft");
    two.send_sheet(
        &sheet,
        &fresh,
        "hand_in",
        &[("r1.span", "23.4"), ("unit.span", "mm")],
    )
    .await
    .expect(303);
    one.get(&sheet)
        .await
        .says("value=\"23.4\"")
        .says("Handed in");
    assert_eq!(revisions(&app).await, 2);
}

#[tokio::test]
async fn choosing_is_asked_again_when_a_third_version_came_in_between() {
    let app = TestApp::new().await;
    let (mut one, sheet, _) = at_bench(&app).await;
    let draft = one.open_sheet(&sheet).await;
    one.send_sheet(&sheet, &draft, "save", &[("r1.span", "1")])
        .await
        .expect(303);
    let fresh = one
        .send_sheet(&sheet, &draft, "save", &[("r1.span", "2")])
        .await
        .expect(409)
        .hidden("draft");
    one.send_sheet(&sheet, &fresh, "save", &[("r1.span", "3")])
        .await
        .expect(303);
    one.send_sheet(&sheet, &fresh, "save", &[("r1.span", "2")])
        .await
        .expect(409);
    assert_eq!(revisions(&app).await, 2);
}

#[tokio::test]
async fn same_contents_from_another_computer_are_no_conflict() {
    let app = TestApp::new().await;
    let (set, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let sheet = format!("/c/{code}/A");
    let mut one = app.browser();
    let number = one.take_bench(&code, "A").await;
    let mut two = app.browser();
    two.post(&format!("{sheet}/come-back"), &[("number", &number)])
        .await
        .expect(303);
    let (draft_one, draft_two) = (one.open_sheet(&sheet).await, two.open_sheet(&sheet).await);
    assert_ne!(draft_one, draft_two, "{set}");
    one.send_sheet(&sheet, &draft_one, "save", &[("r1.span", "22.4")])
        .await
        .expect(303);
    two.send_sheet(&sheet, &draft_two, "save", &[("r1.span", "22.4")])
        .await
        .expect(303);
    assert_eq!(revisions(&app).await, 1);
}
