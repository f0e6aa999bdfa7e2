use crate::support::Lesson;

#[tokio::test]
async fn lost_number_is_replaced_after_a_question() {
    let mut at = Lesson::new().await;
    let mut group = at.app.browser();
    let old = group.take_bench(&at.code, "A").await;
    let (sheet, act) = (at.bench.clone(), at.url("/benches/A/new-number"));
    at.teacher
        .opens(&act)
        .await
        .says("Give bench A a new number?")
        .says("The old one stops working.");
    group.opens(&sheet).await;

    let new = at
        .teacher
        .post_staff(&act, &[])
        .await
        .expect(200)
        .says("shown only this once")
        .at(".code-large")
        .words();
    assert_eq!(new.len(), 4, "{new}");
    group.get(&sheet).await.expect(303);
    group
        .get(&at.benches())
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
    let told: String = at
        .app
        .one("SELECT detail FROM event WHERE what = 'number_renewed'")
        .await;
    assert_eq!(told, "A", "the number itself is no part of it");
}

#[tokio::test]
async fn stranger_does_not_get_the_new_number() {
    let mut at = Lesson::new().await;
    at.app.browser().take_bench(&at.code, "A").await;
    at.posts("/benches/A/new-number", &[]).await.expect(200);
    let stranger = at
        .app
        .post(&at.benches(), &[("bench", "A")])
        .await
        .expect(303);
    assert_eq!(stranger.location(), format!("{}/come-back", at.bench));
}

#[tokio::test]
async fn bench_without_a_number_and_no_bench_at_all_are_refused() {
    let mut at = Lesson::new().await;
    for (bench, status) in [("A", 400), ("Z", 404)] {
        let act = format!("{}/benches/{bench}/new-number", at.set);
        at.teacher.get(&act).await.expect(status);
        at.teacher.post_staff(&act, &[]).await.expect(status);
    }
}
