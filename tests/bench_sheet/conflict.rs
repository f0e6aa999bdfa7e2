use super::revisions;
use crate::support::Lesson;

#[tokio::test]
async fn later_tab_is_shown_both_versions_and_may_keep_the_stored_one() {
    let mut at = Lesson::at_bench().await;
    let mut two = at.tab();
    let later = two.open_sheet(&at.bench).await;
    let boxes = [("r1.dial", "10"), ("r1.span", "22.4")];
    at.keeps("save", &boxes).await;
    let boxes = [("r1.dial", "10"), ("r1.span", "23.4")];
    let page = two.send_sheet(&at.bench, &later, "hand_in", &boxes).await;
    page.expect(409)
        .says("two versions")
        .says("<td>22.4</td><td>23.4</td>")
        .says("<td>10 Hz</td>")
        .says_nothing_of("kept too");
    assert_eq!(revisions(&at.app).await, 1);
    two.get(&at.bench).await.says("value=\"22.4\"");
}

#[tokio::test]
async fn later_tab_may_put_its_own_in_place() {
    let mut at = Lesson::at_bench().await;
    let mut two = at.tab();
    let draft = at.draft().await;
    let first = at.send(&draft, "save", &[("r1.span", "22.4")]).await;
    first.expect(303);
    let own = [("r1.span", "23.4"), ("unit.span", "mm")];
    let page = two.send_sheet(&at.bench, &draft, "hand_in", &own).await;
    let page = page.expect(409);
    for (name, text) in own {
        assert_eq!(page.hidden(name), text);
    }
    let fresh = page.hidden("draft");
    let kept = two.send_sheet(&at.bench, &fresh, "hand_in", &own).await;
    kept.expect(303);
    let page = at.reads().await;
    page.says("value=\"23.4\"").says("Handed in");
    assert_eq!(revisions(&at.app).await, 2);
}

#[tokio::test]
async fn choosing_is_asked_again_when_a_third_version_came_in_between() {
    let mut at = Lesson::at_bench().await;
    let mut draft = at.draft().await;
    // Each of those that are not kept brings a fresh draft.
    for (span, status, is_fresh) in [
        ("1", 303, false),
        ("2", 409, true),
        ("3", 303, false),
        ("2", 409, false),
    ] {
        let page = at.send(&draft, "save", &[("r1.span", span)]).await;
        let page = page.expect(status);
        if is_fresh {
            draft = page.hidden("draft");
        }
    }
    assert_eq!(revisions(&at.app).await, 2);
}

#[tokio::test]
async fn same_contents_from_another_computer_are_no_conflict() {
    let mut at = Lesson::new().await;
    let number = at.pupil.take_bench(&at.code, "A").await;
    let mut two = at.app.browser();
    let come_back = format!("{}/come-back", at.bench);
    let back = two.post(&come_back, &[("number", &number)]).await;
    back.expect(303);
    let (one, other) = (at.draft().await, two.open_sheet(&at.bench).await);
    assert_ne!(one, other);
    let boxes = [("r1.span", "22.4")];
    at.send(&one, "save", &boxes).await.expect(303);
    let again = two.send_sheet(&at.bench, &other, "save", &boxes).await;
    again.expect(303);
    assert_eq!(revisions(&at.app).await, 1);
}
