use crate::support::Lesson;

#[tokio::test]
async fn closed_set_can_be_opened_again() {
    let mut at = Lesson::new().await;
    let closed = [("state", "closed")];
    assert_eq!(at.does("/state", &closed).await.location(), at.set);
    at.page("").await.says("Closed: groups can only read");
    at.does("/state", &[("state", "open")]).await;
    at.page("").await.says("Open: groups can write");
}

#[tokio::test]
async fn state_that_is_none_changes_nothing() {
    let mut at = Lesson::new().await;
    at.posts("/state", &[("state", "ajar")]).await.expect(400);
    at.posts("/state", &[]).await.expect(400);
    at.page("").await.says("Open: groups can write");
}
