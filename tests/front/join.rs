use crate::support::{Lesson, TestApp};

#[tokio::test]
async fn code_in_small_letters_with_spaces_is_read() {
    let at = Lesson::new().await;
    for typed in [
        at.code.clone(),
        at.code.to_lowercase(),
        format!(" {} {}", &at.code[..2], &at.code[2..]),
    ] {
        let reply = at.app.post("/join", &[("code", &typed)]).await.expect(303);
        assert_eq!(reply.location(), at.benches(), "{typed:?}");
    }
    at.app
        .get(&at.benches())
        .await
        .expect(200)
        .says("Bench A")
        .says("Bench D")
        .says("10B/Ph2");
}

#[tokio::test]
async fn unknown_code_comes_back_as_typed() {
    let app = TestApp::new().await;
    for typed in ["XXXXX", "", "12345", "ÅÅÅÅÅ", "much too long a code"] {
        let page = app.post("/join", &[("code", typed)]).await.expect(422);
        page.says("id=\"code-error\"")
            .says(&format!("value=\"{typed}\""));
    }
    app.post("/join", &[]).await.expect(422);
    app.get("/c/XXXXX")
        .await
        .expect(404)
        .says("no class with this code");
}

#[tokio::test]
async fn anybody_may_read_about_privacy_and_purpose() {
    let app = TestApp::new().await;
    app.get("/privacy")
        .await
        .expect(200)
        .says("Your name is not.");
    app.get("/about")
        .await
        .expect(200)
        .says("teaching practicals only");
}
