use super::{BOXES, revisions};
use crate::support::Lesson;

#[tokio::test]
async fn closed_sheet_can_be_read_and_not_written() {
    let mut at = Lesson::at_bench().await;
    at.keeps("hand_in", &BOXES).await;
    let draft = at.draft().await;
    at.closes().await;
    let page = at
        .reads()
        .await
        .says("closed this class set")
        .says("22.4 cm")
        .says("Handed in at 10:42");
    page.lacks("[value=hand_in]");
    for act in ["save", "hand_in", "rows", "repeat.1"] {
        let page = at
            .send(&draft, act, &[("r1.span", "23.9"), ("kit", "Tank 7")])
            .await
            .expect(409);
        page.says("closed this class set")
            .says("23.9")
            .says("Tank 7");
    }
    assert_eq!(revisions(&at.app).await, 1);
}

/// The answer to a hand-in got lost, the class set was closed, and the browser
/// sends it again: it is kept, and the page must not say otherwise.
#[tokio::test]
async fn repeat_of_what_is_kept_is_not_said_to_be_lost() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    at.send(&draft, "hand_in", &BOXES).await.expect(303);
    at.closes().await;
    at.send(&draft, "hand_in", &BOXES).await.expect(303);
    assert_eq!(revisions(&at.app).await, 1);
}
