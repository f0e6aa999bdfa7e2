use crate::support::TestApp;

#[tokio::test]
async fn another_browser_needs_the_number_and_the_first_does_not() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let sheet = format!("/c/{code}/A");
    let mut first = app.browser();
    let number = first.take_bench(&code, "A").await;
    first.opens(&sheet).await;

    let mut second = app.browser();
    assert_eq!(
        second.get(&sheet).await.expect(303).location(),
        format!("{sheet}/come-back")
    );
    second.opens(&format!("{sheet}/come-back")).await;
    let spaced = format!(" {} {}", &number[..2], &number[2..]);
    second
        .post(&format!("{sheet}/come-back"), &[("number", &spaced)])
        .await
        .expect(303);
    second.opens(&sheet).await;
}

#[tokio::test]
async fn visit_lapses_before_the_next_lesson() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let mut pupil = app.browser();
    pupil.take_bench(&code, "A").await;
    app.clock.advance(13 * 3_600_000);
    pupil.get(&format!("/c/{code}/A")).await.expect(303);
}

#[tokio::test]
async fn wrong_numbers_are_refused_and_run_out() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let number = app.browser().take_bench(&code, "A").await;
    app.browser().take_bench(&code, "B").await;
    let act = format!("/c/{code}/A/come-back");
    let wrong = if number == "0000" { "0001" } else { "0000" };
    for text in ["", "12", "12345", "abcd"] {
        app.browser()
            .post(&act, &[("number", text)])
            .await
            .expect(422)
            .says("four digits");
    }
    app.browser().post(&act, &[]).await.expect(422);
    for _ in 0..5 {
        app.browser()
            .post(&act, &[("number", wrong)])
            .await
            .expect(422)
            .says("not this bench");
    }
    app.browser()
        .post(&act, &[("number", &number)])
        .await
        .expect(429)
        .says("too many tries");
    let other = format!("/c/{code}/B/come-back");
    app.browser()
        .post(&other, &[("number", "zzzz")])
        .await
        .expect(422);
    app.clock.advance(60_000);
    app.browser()
        .post(&act, &[("number", &number)])
        .await
        .expect(303);
}

#[tokio::test]
async fn number_of_another_bench_does_not_open_this_one() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let mut a = app.browser();
    a.take_bench(&code, "A").await;
    app.browser().take_bench(&code, "B").await;
    assert_eq!(
        a.get(&format!("/c/{code}/B")).await.expect(303).location(),
        format!("/c/{code}/B/come-back")
    );
    assert_eq!(
        a.get(&format!("/c/{code}/C")).await.expect(303).location(),
        format!("/c/{code}")
    );
}

#[tokio::test]
async fn joker_uses_up_only_their_own_tries() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let number = app.browser().take_bench(&code, "A").await;
    let act = format!("/c/{code}/A/come-back");
    let wrong = if number == "0000" { "0001" } else { "0000" };
    let mut joker = app.browser();
    joker.opens(&act).await;
    for _ in 0..5 {
        joker.post(&act, &[("number", wrong)]).await.expect(422);
    }
    joker.post(&act, &[("number", &number)]).await.expect(429);
    let mut group = app.browser();
    group.opens(&act).await;
    group.post(&act, &[("number", wrong)]).await.expect(422);
    group.post(&act, &[("number", &number)]).await.expect(303);
}

#[tokio::test]
async fn dropping_the_cookie_does_not_go_on_for_ever() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let number = app.browser().take_bench(&code, "A").await;
    let act = format!("/c/{code}/A/come-back");
    let wrong = if number == "0000" { "0001" } else { "0000" };
    for _ in 0..40 {
        let mut browser = app.browser();
        browser.opens(&act).await;
        browser.post(&act, &[("number", wrong)]).await.expect(422);
    }
    let mut browser = app.browser();
    browser.opens(&act).await;
    browser.post(&act, &[("number", &number)]).await.expect(429);
    app.clock.advance(2 * 60_000);
    browser.post(&act, &[("number", &number)]).await.expect(303);
}

#[tokio::test]
async fn number_that_nobody_has_is_not_asked_for() {
    let app = TestApp::new().await;
    let (_, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let asked = app.browser().get(&format!("/c/{code}/A/come-back")).await;
    assert_eq!(asked.expect(303).location(), format!("/c/{code}"));
}
