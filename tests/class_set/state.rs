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
    at.teacher
        .post_staff("/class-sets/99/state", &[("state", "closed")])
        .await
        .expect(404);
    at.page("").await.says("Open: groups can write");
}

#[tokio::test]
async fn number_of_a_bench_that_is_none_is_404() {
    let mut at = Lesson::new().await;
    for path in [
        at.url("/benches/Z/new-number"),
        "/class-sets/99/benches/A/new-number".to_owned(),
    ] {
        at.teacher.post_staff(&path, &[]).await.expect(404);
    }
}
