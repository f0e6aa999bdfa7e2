use crate::support::TestApp;

#[tokio::test]
async fn first_visit_shows_the_number_once_and_leads_to_the_sheet() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let mut pupil = app.browser();
    let number = pupil.take_bench(&code, "B").await;
    assert!(
        number.len() == 4 && number.bytes().all(|b| b.is_ascii_digit()),
        "{number}"
    );
    pupil
        .opens(&format!("/c/{code}/B"))
        .await
        .says("Bench B: your sheet");
    // Reloading the page with the number sends the form again.
    let again = pupil
        .post(&format!("/c/{code}"), &[("bench", "B")])
        .await
        .expect(303);
    assert_eq!(again.location(), format!("/c/{code}/B"));
}

#[tokio::test]
async fn unknown_bench_is_404() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    for label in ["Z", "", "a", "AA", "' OR 1=1"] {
        app.browser()
            .post(&format!("/c/{code}"), &[("bench", label)])
            .await
            .expect(404);
    }
    app.browser()
        .post(&format!("/c/{code}"), &[])
        .await
        .expect(404);
    app.browser().get(&format!("/c/{code}/Z")).await.expect(404);
    app.browser()
        .post("/c/XXXXX", &[("bench", "A")])
        .await
        .expect(404);
}

#[tokio::test]
async fn leaving_ends_the_visit() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let mut pupil = app.browser();
    pupil.take_bench(&code, "A").await;
    pupil
        .post(&format!("/c/{code}/A/leave"), &[])
        .await
        .expect(303);
    let reply = pupil.get(&format!("/c/{code}/A")).await.expect(303);
    assert_eq!(reply.location(), format!("/c/{code}/A/come-back"));
}

#[tokio::test]
async fn bench_of_a_closed_set_that_nobody_began_stays_shut() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    teacher
        .sends(&format!("{set}/state"), &[("state", "closed")])
        .await;
    app.browser()
        .post(&format!("/c/{code}"), &[("bench", "A")])
        .await
        .expect(403)
        .says("closed this class set");
}
