use crate::support::TestApp;

#[tokio::test]
async fn code_in_small_letters_with_spaces_is_read() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    for typed in [
        code.clone(),
        code.to_lowercase(),
        format!(" {} {}", &code[..2], &code[2..]),
    ] {
        let reply = app
            .browser()
            .post("/join", &[("code", &typed)])
            .await
            .expect(303);
        assert_eq!(reply.location(), format!("/c/{code}"), "{typed:?}");
    }
    app.browser()
        .opens(&format!("/c/{code}"))
        .await
        .says("Bench A")
        .says("Bench D")
        .says("10B/Ph2");
}

#[tokio::test]
async fn unknown_code_comes_back_as_typed() {
    let app = TestApp::new().await;
    for typed in ["XXXXX", "", "12345", "ÅÅÅÅÅ", "much too long a code"] {
        let page = app
            .browser()
            .post("/join", &[("code", typed)])
            .await
            .expect(422);
        page.says("id=\"code-error\"")
            .says(&format!("value=\"{typed}\""));
    }
    app.browser().post("/join", &[]).await.expect(422);
    app.browser()
        .get("/c/XXXXX")
        .await
        .expect(404)
        .says("no class with this code");
}

#[tokio::test]
async fn anybody_may_read_about_privacy_and_purpose() {
    let app = TestApp::new().await;
    app.browser()
        .opens("/privacy")
        .await
        .says("Your name is not.");
    app.browser()
        .opens("/about")
        .await
        .says("teaching practicals only");
}
