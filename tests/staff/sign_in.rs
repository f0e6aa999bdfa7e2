use crate::support::{NAME, PASSWORD, TestApp};

#[tokio::test]
async fn name_in_any_case_and_password_sign_in() {
    let app = TestApp::new().await;
    app.teacher().await;
    let mut browser = app.browser();
    let reply = browser
        .post(
            "/staff/sign-in",
            &[("name", " ms  fell "), ("password", PASSWORD)],
        )
        .await
        .expect(303);
    assert_eq!(reply.location(), "/class-sets");
    let cookie = reply.header("set-cookie");
    assert!(
        cookie.contains("HttpOnly") && cookie.contains("SameSite=Lax") && cookie.contains("Path=/"),
        "{cookie}"
    );
    browser.opens("/class-sets").await.says(NAME);
}

#[tokio::test]
async fn wrong_password_and_unknown_name_get_the_same_words() {
    let app = TestApp::new().await;
    app.teacher().await;
    for (name, password) in [
        (NAME, "pond ripple lump"),
        ("Nobody", PASSWORD),
        ("", ""),
        (NAME, ""),
    ] {
        let page = app
            .post("/staff/sign-in", &[("name", name), ("password", password)])
            .await
            .expect(422);
        page.says("This name and password do not belong together.")
            .says(&format!("value=\"{name}\""));
    }
    app.post("/staff/sign-in", &[]).await.expect(422);
}

#[tokio::test]
async fn guessing_one_account_is_slowed_and_others_are_not() {
    let app = TestApp::new().await;
    app.teacher().await;
    let wrong = [("name", NAME), ("password", "wrong wrong wrong")];
    for _ in 0..10 {
        app.post("/staff/sign-in", &wrong).await.expect(422);
    }
    let right = [("name", NAME), ("password", PASSWORD)];
    app.post("/staff/sign-in", &right)
        .await
        .expect(429)
        .says("too many tries");
    app.post("/staff/sign-in", &[("name", "Nobody")])
        .await
        .expect(422);
    app.clock.advance(30_000);
    app.post("/staff/sign-in", &right).await.expect(303);
}
