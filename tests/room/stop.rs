//! When measuring stops.

use super::MINUTE;
use crate::support::{Lesson, Reply};

impl Lesson {
    async fn stops_at(&mut self, until: &str) -> Reply {
        self.posts("/room/stop", &[("until", until)]).await
    }
}

#[tokio::test]
async fn minutes_left_are_told_and_count_down() {
    let mut lesson = Lesson::new().await;
    lesson.room_page().await.says_nothing_of("left, until");
    let reply = lesson.stops_at(" 10:54 ").await.expect(303);
    assert_eq!(reply.location(), format!("{}#stop", lesson.room("")));
    let page = lesson.room_page().await;
    page.says("12 minutes left, until 10:54")
        .says("name=\"until\" autocomplete=\"off\" value=\"10:54\"");
    lesson.minutes_pass(11);
    lesson.room_page().await.says("1 minute left, until 10:54");
    lesson.minutes_pass(1);
    lesson.room_page().await.says("Measuring stopped at 10:54");
    lesson.app.clock.advance(24 * 60 * MINUTE);
    lesson.teacher.signs_in().await;
    let page = lesson.room_page().await;
    page.says_nothing_of("stopped at")
        .says("Say when measuring stops")
        .says("autocomplete=\"off\" value=\"\"");
}

#[tokio::test]
async fn blank_box_takes_the_time_back() {
    let mut lesson = Lesson::new().await;
    lesson.stops_at("11:00").await.expect(303);
    lesson.stops_at("  ").await.expect(303);
    lesson.room_page().await.says_nothing_of("left, until");
}

#[tokio::test]
async fn time_that_cannot_be_taken_stays_in_the_box_with_a_sentence_beside_it() {
    let mut lesson = Lesson::new().await;
    lesson.stops_at("11:00").await.expect(303);
    for (typed, sentence) in [
        ("half past", "Type a time of day"),
        ("25:00", "Type a time of day"),
        ("10:41", "That time has passed already today"),
        ("10:42", "That time has passed already today"),
    ] {
        let page = lesson.stops_at(typed).await.expect(422);
        page.says(&format!("value=\"{typed}\""))
            .says("id=\"until-error\"")
            .says(sentence)
            .says("aria-invalid=\"true\"")
            // What is typed is not to be wiped by the clock.
            .says_nothing_of("http-equiv")
            .says("18 minutes left, until 11:00");
    }
    let page = lesson.stops_at("<b>\"").await.expect(422);
    page.says_nothing_of("<b>").says("Type a time of day");
}
