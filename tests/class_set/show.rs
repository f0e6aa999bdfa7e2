use crate::support::TestApp;

#[tokio::test]
async fn hand_out_has_address_code_picture_cautions_and_kit_list() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (url, code) = teacher.make_class_set("ripple-tank").await;
    let page = teacher
        .opens(&url)
        .await
        .says("<strong>http://lab.test</strong>");
    let page = page.says(&format!("QR code that leads to http://lab.test/c/{code}"));
    page.says("photosensitive epilepsy")
        .says("straight dipper")
        .says_nothing_of("only on this computer");
    let (url, _) = teacher.make_class_set("string-loops").await;
    teacher
        .opens(&url)
        .await
        .says("eye protection")
        .says("metre ruler");
}

#[tokio::test]
async fn unknown_class_set_is_404() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    for id in ["99", "-1", "9223372036854775807"] {
        teacher.get(&format!("/class-sets/{id}")).await.expect(404);
    }
    for id in ["x", "1.5", "99999999999999999999"] {
        teacher.get(&format!("/class-sets/{id}")).await.expect(400);
    }
}

#[tokio::test]
async fn states_of_benches_follow_the_work() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    teacher
        .get(&set)
        .await
        .says("Not begun")
        .says_nothing_of("Writing");
    let mut pupil = app.browser();
    pupil.take_bench(&code, "A").await;
    teacher.get(&set).await.says("Writing");
    let sheet = format!("/c/{code}/A");
    pupil.keeps(&sheet, "save", &[("r1.dial", "10")]).await;
    teacher
        .get(&set)
        .await
        .says("Saved at 10:42, not handed in");
    pupil.keeps(&sheet, "hand_in", &[("r1.dial", "10")]).await;
    teacher.get(&set).await.says("Handed in at 10:42");
    teacher.get("/class-sets").await.says("1 of 4");
    pupil
        .get(&format!("/c/{code}"))
        .await
        .says("Handed in. You may need");
    app.clock.advance(3 * 60_000);
    pupil.keeps(&sheet, "save", &[("r1.dial", "11")]).await;
    teacher
        .get(&set)
        .await
        .says("Handed in at 10:42, changed at 10:45");
}
