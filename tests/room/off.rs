//! Live pages that are switched off.

use crate::support::Lesson;

#[tokio::test]
async fn switched_off_pages_say_why_and_nothing_else() {
    let mut lesson = Lesson::new().await;
    lesson.sends("hand_in", "A").await;
    lesson.live("off").await;
    for below in ["", "?still", "/wall"] {
        let page = lesson.teacher.opens(&lesson.room(below)).await;
        page.says("The live pages are off for this class set")
            .says("sat as an exam")
            .says(&format!("{}#help", lesson.set))
            .says_nothing_of("bench-A")
            .says_nothing_of("room.js");
    }
    lesson.live("on").await;
    lesson.tile("A").await.says("Handed in");
}

#[tokio::test]
async fn parts_lead_to_the_page_that_says_why_and_the_stream_ends_for_good() {
    let mut lesson = Lesson::new().await;
    lesson.live("off").await;
    for below in ["/tiles", "/wall/benches"] {
        let reply = lesson.teacher.get(&lesson.room(below)).await.expect(303);
        assert_eq!(reply.location(), lesson.room(""));
    }
    // 204 tells a browser not to open the stream again.
    let changes = lesson.room("/changes");
    lesson.teacher.get(&changes).await.expect(204);
}

#[tokio::test]
async fn switched_off_pages_take_no_tick_and_no_time() {
    let mut lesson = Lesson::new().await;
    lesson.live("off").await;
    let reply = lesson.ticks("A", "on", "0").await.expect(303);
    assert_eq!(reply.location(), lesson.room(""));
    for until in ["11:00", "never"] {
        let reply = lesson.posts("/room/stop", &[("until", until)]).await;
        assert_eq!(reply.expect(303).location(), lesson.room(""));
    }
    lesson.live("on").await;
    let page = lesson.room_page().await;
    page.says_nothing_of("Seen at")
        .says_nothing_of("left, until");
}
