use crate::support::Lesson;

#[tokio::test]
async fn first_visit_shows_the_number_once_and_leads_to_the_sheet() {
    let at = Lesson::new().await;
    let mut pupil = at.app.browser();
    let number = pupil.take_bench(&at.code, "B").await;
    assert!(
        number.len() == 4 && number.bytes().all(|b| b.is_ascii_digit()),
        "{number}"
    );
    pupil.opens(&at.own("B")).await.says("Bench B: your sheet");
    // Reloading the page with the number sends the form again.
    let again = pupil
        .post(&at.benches(), &[("bench", "B")])
        .await
        .expect(303);
    assert_eq!(again.location(), at.own("B"));
}

#[tokio::test]
async fn unknown_bench_is_404() {
    let at = Lesson::new().await;
    for label in ["Z", "", "a", "AA", "' OR 1=1"] {
        at.app
            .post(&at.benches(), &[("bench", label)])
            .await
            .expect(404);
    }
    at.app.post(&at.benches(), &[]).await.expect(404);
    at.app.get(&at.own("Z")).await.expect(404);
    at.app.post("/c/XXXXX", &[("bench", "A")]).await.expect(404);
}

#[tokio::test]
async fn leaving_ends_the_visit() {
    let mut at = Lesson::at_bench().await;
    at.pupil
        .post(&format!("{}/leave", at.bench), &[])
        .await
        .expect(303);
    let reply = at.pupil.get(&at.bench).await.expect(303);
    assert_eq!(reply.location(), format!("{}/come-back", at.bench));
}

#[tokio::test]
async fn bench_of_a_closed_set_that_nobody_began_stays_shut() {
    let mut at = Lesson::new().await;
    at.closes().await;
    at.app
        .post(&at.benches(), &[("bench", "A")])
        .await
        .expect(403)
        .says("closed this class set");
}
