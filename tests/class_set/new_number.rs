use crate::support::TestApp;

#[tokio::test]
async fn lost_number_is_replaced_after_a_question() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    let mut group = app.browser();
    let old = group.take_bench(&code, "A").await;
    let (sheet, act) = (
        format!("/c/{code}/A"),
        format!("{set}/benches/A/new-number"),
    );
    teacher
        .opens(&act)
        .await
        .says("Give bench A a new number?")
        .says("The old one stops working.");
    group.opens(&sheet).await;

    let new = teacher
        .post_staff(&act, &[])
        .await
        .expect(200)
        .says("shown only this once")
        .at(".code-large")
        .words();
    assert_eq!(new.len(), 4, "{new}");
    group.get(&sheet).await.expect(303);
    group
        .get(&format!("/c/{code}"))
        .await
        .says("Begun. You may need its come-back number.");
    let come_back = format!("{sheet}/come-back");
    if new != old {
        group
            .post(&come_back, &[("number", &old)])
            .await
            .expect(422);
    }
    group
        .post(&come_back, &[("number", &new)])
        .await
        .expect(303);
    group.opens(&sheet).await;
    let told: String = app
        .one("SELECT detail FROM event WHERE what = 'number_renewed'")
        .await;
    assert_eq!(told, "A", "the number itself is no part of it");
}

#[tokio::test]
async fn stranger_does_not_get_the_new_number() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    app.browser().take_bench(&code, "A").await;
    teacher
        .post_staff(&format!("{set}/benches/A/new-number"), &[])
        .await
        .expect(200);
    let stranger = app
        .browser()
        .post(&format!("/c/{code}"), &[("bench", "A")])
        .await
        .expect(303);
    assert_eq!(stranger.location(), format!("/c/{code}/A/come-back"));
}

#[tokio::test]
async fn bench_without_a_number_and_no_bench_at_all_are_refused() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, _) = teacher.make_class_set("ripple-tank").await;
    for (bench, status) in [("A", 400), ("Z", 404)] {
        let act = format!("{set}/benches/{bench}/new-number");
        teacher.get(&act).await.expect(status);
        teacher.post_staff(&act, &[]).await.expect(status);
    }
    teacher
        .get("/class-sets/99/benches/A/new-number")
        .await
        .expect(404);
    app.browser()
        .get(&format!("{set}/benches/A/new-number"))
        .await
        .expect(303);
}
