use crate::support::TestApp;

#[tokio::test]
async fn closed_set_can_be_opened_again() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, _) = teacher.make_class_set("ripple-tank").await;
    let act = format!("{set}/state");
    assert_eq!(
        teacher.sends(&act, &[("state", "closed")]).await.location(),
        set
    );
    teacher.get(&set).await.says("Closed: groups can only read");
    teacher.sends(&act, &[("state", "open")]).await;
    teacher.get(&set).await.says("Open: groups can write");
}

#[tokio::test]
async fn state_that_is_none_changes_nothing() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, _) = teacher.make_class_set("ripple-tank").await;
    teacher
        .post_staff(&format!("{set}/state"), &[("state", "ajar")])
        .await
        .expect(400);
    teacher
        .post_staff(&format!("{set}/state"), &[])
        .await
        .expect(400);
    teacher
        .post_staff("/class-sets/99/state", &[("state", "closed")])
        .await
        .expect(404);
    teacher.get(&set).await.says("Open: groups can write");
}

#[tokio::test]
async fn number_of_a_bench_that_is_none_is_404() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, _) = teacher.make_class_set("ripple-tank").await;
    for path in [
        format!("{set}/benches/Z/new-number"),
        "/class-sets/99/benches/A/new-number".to_owned(),
    ] {
        teacher.post_staff(&path, &[]).await.expect(404);
    }
}
