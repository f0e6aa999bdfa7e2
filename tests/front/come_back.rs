use crate::support::Lesson;

#[tokio::test]
async fn another_browser_needs_the_number_and_the_first_does_not() {
    let at = Lesson::new().await;
    let sheet = at.bench.clone();
    let mut first = at.app.browser();
    let number = first.take_bench(&at.code, "A").await;
    first.opens(&sheet).await;

    let mut second = at.app.browser();
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
    let mut at = Lesson::at_bench().await;
    at.app.clock.advance(13 * 3_600_000);
    at.pupil.get(&at.bench).await.expect(303);
}

#[tokio::test]
async fn wrong_numbers_are_refused_and_run_out() {
    let at = Lesson::new().await;
    let number = at.app.browser().take_bench(&at.code, "A").await;
    at.app.browser().take_bench(&at.code, "B").await;
    let act = format!("{}/come-back", at.bench);
    let wrong = if number == "0000" { "0001" } else { "0000" };
    for text in ["", "12", "12345", "abcd"] {
        at.app
            .post(&act, &[("number", text)])
            .await
            .expect(422)
            .says("four digits");
    }
    at.app.post(&act, &[]).await.expect(422);
    for _ in 0..5 {
        at.app
            .post(&act, &[("number", wrong)])
            .await
            .expect(422)
            .says("not this bench");
    }
    at.app
        .post(&act, &[("number", &number)])
        .await
        .expect(429)
        .says("too many tries");
    let other = format!("/c/{}/B/come-back", at.code);
    at.app.post(&other, &[("number", "zzzz")]).await.expect(422);
    at.app.clock.advance(60_000);
    at.app.post(&act, &[("number", &number)]).await.expect(303);
}

#[tokio::test]
async fn number_of_another_bench_does_not_open_this_one() {
    let at = Lesson::new().await;
    let mut a = at.app.browser();
    a.take_bench(&at.code, "A").await;
    at.app.browser().take_bench(&at.code, "B").await;
    assert_eq!(
        a.get(&at.own("B")).await.expect(303).location(),
        format!("/c/{}/B/come-back", at.code)
    );
    assert_eq!(
        a.get(&at.own("C")).await.expect(303).location(),
        at.benches()
    );
}

#[tokio::test]
async fn joker_uses_up_only_their_own_tries() {
    let at = Lesson::new().await;
    let number = at.app.browser().take_bench(&at.code, "A").await;
    let act = format!("{}/come-back", at.bench);
    let wrong = if number == "0000" { "0001" } else { "0000" };
    let mut joker = at.app.browser();
    joker.opens(&act).await;
    for _ in 0..5 {
        joker.post(&act, &[("number", wrong)]).await.expect(422);
    }
    joker.post(&act, &[("number", &number)]).await.expect(429);
    let mut group = at.app.browser();
    group.opens(&act).await;
    group.post(&act, &[("number", wrong)]).await.expect(422);
    group.post(&act, &[("number", &number)]).await.expect(303);
}

#[tokio::test]
async fn dropping_the_cookie_does_not_go_on_for_ever() {
    let at = Lesson::new().await;
    let number = at.app.browser().take_bench(&at.code, "A").await;
    let act = format!("{}/come-back", at.bench);
    let wrong = if number == "0000" { "0001" } else { "0000" };
    for _ in 0..40 {
        let mut browser = at.app.browser();
        browser.opens(&act).await;
        browser.post(&act, &[("number", wrong)]).await.expect(422);
    }
    let mut browser = at.app.browser();
    browser.opens(&act).await;
    browser.post(&act, &[("number", &number)]).await.expect(429);
    at.app.clock.advance(2 * 60_000);
    browser.post(&act, &[("number", &number)]).await.expect(303);
}

#[tokio::test]
async fn number_that_nobody_has_is_not_asked_for() {
    let at = Lesson::new().await;
    let asked = at.app.get(&format!("{}/come-back", at.bench)).await;
    assert_eq!(asked.expect(303).location(), at.benches());
}
