use crate::support::{NAME, PASSWORD, TestApp};

const HOUR: i64 = 3_600_000;

#[tokio::test]
async fn signing_out_ends_the_session_on_the_server() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let token = teacher.cookie("sid").unwrap();
    teacher.post_staff("/staff/sign-out", &[]).await.expect(303);
    assert_eq!(teacher.cookie("sid"), None);
    let mut thief = app.browser();
    thief.set_cookie("sid", &token);
    thief.get("/class-sets").await.expect(303);
}

#[tokio::test]
async fn signing_in_again_changes_the_token() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let old = teacher.cookie("sid").unwrap();
    teacher
        .post("/staff/sign-in", &[("name", NAME), ("password", PASSWORD)])
        .await
        .expect(303);
    assert_ne!(teacher.cookie("sid").unwrap(), old);
    teacher.get("/class-sets").await.expect(200);
    teacher.set_cookie("sid", &old);
    teacher.get("/class-sets").await.expect(303);
}

#[tokio::test]
async fn session_left_alone_ends() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    app.clock.advance(3 * HOUR - 1000);
    teacher.get("/class-sets").await.expect(200);
    app.clock.advance(3 * HOUR - 1000);
    teacher.get("/class-sets").await.expect(200);
    app.clock.advance(3 * HOUR);
    teacher.get("/class-sets").await.expect(303);
}

#[tokio::test]
async fn session_in_use_ends_after_twelve_hours() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    for _ in 0..11 {
        app.clock.advance(HOUR);
        teacher.get("/class-sets").await.expect(200);
    }
    app.clock.advance(HOUR);
    teacher.get("/class-sets").await.expect(303);
}

#[tokio::test]
async fn form_without_the_sessions_token_is_refused() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let boxes = [("label", "Tank 3"), ("kind", "tank")];
    teacher
        .post("/kits", &boxes)
        .await
        .expect(403)
        .says("earlier session");
    teacher
        .post(
            "/kits",
            &[("token", "0"), ("label", "Tank 3"), ("kind", "tank")],
        )
        .await
        .expect(403);
    teacher
        .get("/kits")
        .await
        .expect(200)
        .says_nothing_of("Tank 3</th>");
}
