//! Layers: headers, limits, refusals.

use axum::body::Body;

use crate::support::{Lesson, TestApp};

#[tokio::test]
async fn every_answer_carries_the_protecting_headers() {
    let app = TestApp::new().await;
    for path in [
        "/",
        "/privacy",
        "/about",
        "/nowhere",
        "/staff/sign-in",
        "/class-sets",
    ] {
        let reply = app.get(path).await;
        let policy = reply.header("content-security-policy");
        assert!(policy.contains("default-src 'none'"), "{path}: {policy}");
        assert!(
            policy.contains("frame-ancestors 'none'") && policy.contains("base-uri 'none'"),
            "{path}: {policy}"
        );
        assert!(!policy.contains("unsafe"), "{path}: {policy}");
        assert_eq!(reply.header("x-content-type-options"), "nosniff", "{path}");
        assert_eq!(reply.header("referrer-policy"), "same-origin", "{path}");
        assert_eq!(
            reply.header("cross-origin-opener-policy"),
            "same-origin",
            "{path}"
        );
        assert_eq!(reply.header("cache-control"), "no-store", "{path}");
    }
}

#[tokio::test]
async fn pages_have_no_inline_script_or_style() {
    let mut at = Lesson::new().await;
    for path in [
        "/",
        "/privacy",
        "/about",
        "/staff/sign-in",
        "/class-sets",
        "/class-sets/new",
        &at.set,
        "/kits",
        "/staff",
    ] {
        let page = at.teacher.opens(path).await;
        page.says_nothing_of(" style=")
            .says_nothing_of("<style")
            .says_nothing_of("<script>")
            .says_nothing_of(" onclick=");
    }
}

#[tokio::test]
async fn static_files_are_kept_for_a_year_under_their_hash() {
    let app = TestApp::new().await;
    let front = app.get("/").await.expect(200);
    let css = front.at("link[rel=stylesheet]").attr("href").to_owned();
    let reply = app.get(&css).await.expect(200);
    assert!(
        reply.header("cache-control").contains("immutable"),
        "{:?}",
        reply.headers
    );
    assert_eq!(reply.header("content-type"), "text/css; charset=utf-8");
    let font = css.replace("app.css", "fonts/atkinson-next-bold.woff2");
    assert_eq!(
        app.get(&font).await.expect(200).header("content-type"),
        "font/woff2"
    );
    app.get("/static/0000000000000000/app.css")
        .await
        .expect(404);
}

#[tokio::test]
async fn unknown_page_is_a_page_that_says_so() {
    let app = TestApp::new().await;
    let page = app
        .get("/nowhere")
        .await
        .expect(404)
        .says("<h1>Page not found</h1>");
    assert_eq!(page.header("content-type"), "text/html; charset=utf-8");
    app.post("/privacy", &[])
        .await
        .expect(405)
        .says("<h1>Not possible</h1>");
    app.get("/class-sets/%FF").await.expect(303);
}

#[tokio::test]
async fn form_from_another_site_is_refused() {
    let app = TestApp::new().await;
    let browser = app.browser();
    let request = |origin: &str| {
        let form = "application/x-www-form-urlencoded";
        let request = browser
            .request("POST", "/join")
            .header("origin", origin)
            .header("content-type", form);
        request.body(Body::from("code=BCDFG")).unwrap()
    };
    app.send(request("http://evil.test"))
        .await
        .expect(403)
        .says("came from another site");
    app.send(request("null")).await.expect(403);
    app.send(request("http://lab.test")).await.expect(422);
}

#[tokio::test]
async fn body_that_is_too_long_is_refused() {
    let app = TestApp::new().await;
    let long = "x".repeat(70_000);
    app.post("/join", &[("code", &long)])
        .await
        .expect(413)
        .says("Too long");
}

#[tokio::test]
async fn body_that_is_no_form_is_refused() {
    let app = TestApp::new().await;
    let request = app
        .browser()
        .request("POST", "/join")
        .header("content-type", "application/json");
    app.send(request.body(Body::from("{}")).unwrap())
        .await
        .expect(400)
        .says("takes only its own form");
}
