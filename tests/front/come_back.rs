use crate::support::Lesson;

/// Bench A was chosen: where one comes back to it, its number, and another.
async fn chosen() -> (Lesson, String, [String; 2]) {
    let mut at = Lesson::new().await;
    let number = at.pupil.take_bench(&at.code, "A").await;
    let wrong = if number == "0000" { "0001" } else { "0000" };
    let act = format!("{}/come-back", at.bench);
    (at, act, [number, wrong.to_owned()])
}

#[tokio::test]
async fn another_browser_needs_the_number_and_the_first_does_not() {
    let (mut at, act, [number, _]) = chosen().await;
    at.reads().await;

    let mut second = at.app.browser();
    let asked = second.get(&at.bench).await.expect(303);
    assert_eq!(asked.location(), act);
    second.opens(&act).await;
    let spaced = format!(" {} {}", &number[..2], &number[2..]);
    let back = second.post(&act, &[("number", &spaced)]).await;
    back.expect(303);
    second.opens(&at.bench).await;
}

#[tokio::test]
async fn visit_lapses_before_the_next_lesson() {
    let mut at = Lesson::at_bench().await;
    at.app.clock.advance(13 * 3_600_000);
    at.pupil.get(&at.bench).await.expect(303);
}

#[tokio::test]
async fn wrong_numbers_are_refused_and_run_out() {
    let (at, act, [number, wrong]) = chosen().await;
    at.app.browser().take_bench(&at.code, "B").await;
    let tries = ["", "12", "12345", "abcd"].map(|text| (text, 422, "four digits"));
    let wrong = [(wrong.as_str(), 422, "not this bench"); 5];
    let late = [(number.as_str(), 429, "too many tries")];
    for (text, status, says) in [&tries[..], &wrong, &late].concat() {
        let page = at.app.post(&act, &[("number", text)]).await;
        page.expect(status).says(says);
    }
    let other = at.own("B") + "/come-back";
    at.app.post(&other, &[("number", "zzzz")]).await.expect(422);
    at.app.clock.advance(60_000);
    at.app.post(&act, &[("number", &number)]).await.expect(303);
}

#[tokio::test]
async fn number_of_another_bench_does_not_open_this_one() {
    let (mut at, ..) = chosen().await;
    at.app.browser().take_bench(&at.code, "B").await;
    let (b, c) = (at.own("B"), at.own("C"));
    for (sheet, to) in [(&b, format!("{b}/come-back")), (&c, at.benches())] {
        let sent = at.pupil.get(sheet).await.expect(303);
        assert_eq!(sent.location(), to);
    }
}

#[tokio::test]
async fn joker_uses_up_only_their_own_tries() {
    let (at, act, [number, wrong]) = chosen().await;
    let mut joker = at.app.browser();
    joker.opens(&act).await;
    for _ in 0..5 {
        joker.post(&act, &[("number", &wrong)]).await.expect(422);
    }
    joker.post(&act, &[("number", &number)]).await.expect(429);
    let mut group = at.app.browser();
    group.opens(&act).await;
    group.post(&act, &[("number", &wrong)]).await.expect(422);
    group.post(&act, &[("number", &number)]).await.expect(303);
}

#[tokio::test]
async fn dropping_the_cookie_does_not_go_on_for_ever() {
    let (at, act, [number, wrong]) = chosen().await;
    for _ in 0..40 {
        let mut browser = at.app.browser();
        browser.opens(&act).await;
        browser.post(&act, &[("number", &wrong)]).await.expect(422);
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
