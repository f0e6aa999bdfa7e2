//! The stream of changes.

use std::time::Duration;

use super::MINUTE;
use super::stream::Stream;
use crate::support::{Group, Lesson};

impl Lesson {
    /// A page is opened, and its stream with it.
    async fn listens(&mut self) -> Stream {
        let page = self.room_page().await.at("[data-count]");
        let count = page.attr("data-count");
        let address = self.room(&format!("/changes?since={count}"));
        Stream::open(&self.app, &self.teacher, &address).await
    }
}

#[tokio::test]
async fn hand_in_is_told_to_an_open_page() {
    let mut lesson = Lesson::new().await;
    let mut stream = lesson.listens().await;
    assert!(stream.is_silent().await, "nothing has happened");
    let (mut pupil, url) = lesson.sends("hand_in", "B").await;
    stream.change().await;
    lesson.page("/room/tiles").await.says("Bench B handed in.");
    while !stream.is_silent().await {}
    let other = Group::CAREFUL.level(1.01);
    other.sends_again("save", &mut pupil, &url).await;
    stream.change().await;
}

#[tokio::test]
async fn everything_that_the_page_shows_is_told() {
    let mut lesson = Lesson::new().await;
    let mut stream = lesson.listens().await;
    let mut pupil = lesson.chooses("A").await;
    stream.change().await;
    let leave = format!("{}/leave", lesson.bench);
    pupil.post(&leave, &[]).await.expect(303);
    stream.change().await;
    lesson.ticks("A", "on", "0").await.expect(303);
    stream.change().await;
    let acts: [(&str, &[(&str, &str)]); 5] = [
        ("/room/stop", &[("until", "11:00")]),
        ("/thresholds", &[("bench", "70"), ("summary", "40")]),
        ("/benches/A/new-number", &[]),
        ("/help", &[("live", "on"), ("look_again", "step")]),
        ("/state", &[("state", "closed")]),
    ];
    for (act, boxes) in acts {
        let act = format!("{}{act}", lesson.set);
        let reply = lesson.teacher.post_staff(&act, boxes).await;
        assert!(reply.status.as_u16() < 400, "{act}: {}", reply.text);
        stream.change().await;
    }
}

#[tokio::test]
async fn decision_on_a_slip_is_told() {
    let mut lesson = Lesson::new().await;
    lesson.hands_in(&Group::FORGETFUL, "A").await;
    let mut stream = lesson.listens().await;
    lesson.decides("slip-0", "confirmed", "").await;
    stream.change().await;
}

#[tokio::test]
async fn change_between_the_page_and_its_stream_is_told_at_once() {
    let mut lesson = Lesson::new().await;
    let page = lesson.room_page().await.at("[data-count]");
    let count = page.attr("data-count");
    lesson.chooses("A").await;
    let address = lesson.room(&format!("/changes?since={count}"));
    let mut stream = Stream::open(&lesson.app, &lesson.teacher, &address).await;
    let heard = stream.change().await;
    assert!(stream.is_silent().await, "it is told once");
    drop(stream);
    // The browser opens it again by itself, at the old address.
    let mut again = Stream::open_after(&lesson.app, &lesson.teacher, &address, Some(heard)).await;
    assert!(again.is_silent().await, "it has heard that");
    lesson.chooses("B").await;
    assert!(again.change().await > heard, "counts go up");
}

#[tokio::test]
async fn class_sets_do_not_hear_each_other() {
    let mut lesson = Lesson::new().await;
    let mut stream = lesson.listens().await;
    let (_, code) = lesson.teacher.make_class_set("ripple-tank").await;
    lesson.app.browser().take_bench(&code, "A").await;
    assert!(stream.is_silent().await, "that was another class");
}

#[tokio::test]
async fn form_that_changed_nothing_is_not_told() {
    let mut lesson = Lesson::new().await;
    let mut stream = lesson.listens().await;
    lesson.ticks("A", "perhaps", "0").await.expect(400);
    let never = [("until", "never")];
    lesson.posts("/room/stop", &never).await.expect(422);
    assert!(stream.is_silent().await, "nothing was stored");
}

#[tokio::test]
async fn stream_ends_with_its_session() {
    let mut lesson = Lesson::new().await;
    let mut stream = lesson.listens().await;
    lesson.chooses("A").await;
    stream.change().await;
    lesson.teacher.sends("/staff/sign-out", &[]).await;
    lesson.chooses("B").await;
    assert_eq!(stream.next().await, None, "signed out");
}

#[tokio::test]
async fn stream_ends_when_its_session_has_lapsed() {
    let mut lesson = Lesson::new().await;
    let mut stream = lesson.listens().await;
    lesson.app.clock.advance(3 * 60 * MINUTE);
    lesson.chooses("A").await;
    assert_eq!(stream.next().await, None, "nobody asked for three hours");
}

/// Lets the runtime's own time jump ahead. Data files answer in real time, so
/// it must not stand still while one is asked.
async fn seconds_pass(seconds: u64) {
    tokio::time::pause();
    tokio::time::advance(Duration::from_secs(seconds)).await;
    tokio::time::resume();
}

#[tokio::test]
async fn quiet_stream_is_kept_open_and_ends_soon_after_its_session() {
    let mut lesson = Lesson::new().await;
    let mut stream = lesson.listens().await;
    assert!(stream.is_silent().await, "nothing has happened");
    seconds_pass(16).await;
    assert_eq!(stream.next().await.as_deref(), Some(":\n\n"), "a comment");
    assert!(stream.is_silent().await, "it is still open");
    lesson.teacher.sends("/staff/sign-out", &[]).await;
    seconds_pass(16).await;
    let mut sent = stream.next().await;
    if sent.as_deref() == Some(":\n\n") {
        sent = stream.next().await;
    }
    assert_eq!(sent, None, "the session is gone");
}

#[tokio::test]
async fn readings_taken_in_from_a_file_are_told() {
    let mut lesson = Lesson::new().await;
    let mut stream = lesson.listens().await;
    let file = "group,method,row,dial,last_crest,span\nC,ripple-tank,1,10,6,24.7\n";
    let readings = serde_json::to_string(file).unwrap();
    let form = [
        ("readings", readings.as_str()),
        ("base.C", "0"),
        ("take.C", "yes"),
    ];
    let keep = format!("{}/import/keep", lesson.set);
    lesson.teacher.upload(&keep, &form, None).await.expect(303);
    stream.change().await;
    lesson.page("/room/tiles").await.says("Bench C handed in.");
}
