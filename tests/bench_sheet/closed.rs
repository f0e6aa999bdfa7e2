use super::{BOXES, at_bench, revisions};
use crate::support::TestApp;
use crate::support::{NAME, PASSWORD};

pub(crate) async fn close(app: &TestApp, set: &str) {
    let mut teacher = app.browser();
    teacher
        .post("/staff/sign-in", &[("name", NAME), ("password", PASSWORD)])
        .await
        .expect(303);
    teacher
        .sends(&format!("{set}/state"), &[("state", "closed")])
        .await;
}

#[tokio::test]
async fn closed_sheet_can_be_read_and_not_written() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, set) = at_bench(&app).await;
    pupil.keeps(&sheet, "hand_in", &BOXES).await;
    let draft = pupil.open_sheet(&sheet).await;
    close(&app, &set).await;
    let page = pupil
        .opens(&sheet)
        .await
        .says("closed this class set")
        .says("22.4 cm")
        .says("Handed in at 10:42");
    page.says_nothing_of("value=\"hand_in\"");
    for act in ["save", "hand_in", "rows", "repeat.1"] {
        let page = pupil
            .send_sheet(
                &sheet,
                &draft,
                act,
                &[("r1.span", "23.9"), ("kit", "Tank 7")],
            )
            .await
            .expect(409);
        page.says("closed this class set")
            .says("23.9")
            .says("Tank 7");
    }
    assert_eq!(revisions(&app).await, 1);
}

/// The answer to a hand-in got lost, the class set was closed, and the browser
/// sends it again: it is kept, and the page must not say otherwise.
#[tokio::test]
async fn repeat_of_what_is_kept_is_not_said_to_be_lost() {
    let app = TestApp::new().await;
    let (mut pupil, sheet, set) = at_bench(&app).await;
    let draft = pupil.open_sheet(&sheet).await;
    pupil
        .send_sheet(&sheet, &draft, "hand_in", &BOXES)
        .await
        .expect(303);
    close(&app, &set).await;
    pupil
        .send_sheet(&sheet, &draft, "hand_in", &BOXES)
        .await
        .expect(303);
    assert_eq!(revisions(&app).await, 1);
}
