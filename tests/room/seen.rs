//! The teacher's tick.

use super::labels;
use crate::support::{Group, Lesson, counted};

#[tokio::test]
async fn ticked_bench_goes_to_the_end_of_its_kind_and_comes_back_without_the_tick() {
    let mut lesson = Lesson::new().await;
    for label in ["A", "B", "C"] {
        lesson.sends("hand_in", label).await;
    }
    let findings = [("A", vec![counted(0.97)]), ("B", vec![counted(0.85)])];
    lesson.suggest(&findings).await;
    assert_eq!(labels(&lesson.room_page().await), "ABCD");
    let reply = lesson.ticks("A", "on", "1").await.expect(303);
    assert_eq!(reply.location(), format!("{}#bench-A", lesson.room("")));
    let page = lesson.room_page().await;
    assert_eq!(labels(&page), "BACD");
    page.says("Seen at 10:42, so it comes after others like it.");
    // The same form sent twice is one tick.
    lesson.ticks("A", "on", "1").await.expect(303);
    lesson.ticks("A", "off", "1").await.expect(303);
    lesson.ticks("A", "off", "1").await.expect(303);
    let page = lesson.room_page().await.says_nothing_of("Seen at");
    assert_eq!(labels(&page), "ABCD");
}

#[tokio::test]
async fn sheet_that_changed_since_the_tick_says_so_and_takes_its_place_again() {
    let mut lesson = Lesson::new().await;
    lesson.sends("hand_in", "A").await;
    let (mut pupil, url) = lesson.sends("save", "B").await;
    lesson.ticks("A", "on", "1").await.expect(303);
    lesson.ticks("B", "on", "1").await.expect(303);
    assert_eq!(labels(&lesson.room_page().await), "CDAB");
    let other = Group::CAREFUL.level(1.01);
    other.sends_again("save", &mut pupil, &url).await;
    let tile = lesson.tile("B").await;
    tile.says("Changed since you were there at 10:42.");
    assert_eq!(labels(&lesson.room_page().await), "BCDA");
}

#[tokio::test]
async fn tick_counts_for_what_was_on_the_screen() {
    let mut lesson = Lesson::new().await;
    let tile = lesson.tile("A").await;
    let version = tile.value("version");
    lesson.sends("hand_in", "A").await;
    lesson.ticks("A", "on", &version).await.expect(303);
    lesson.tile("A").await.says("Changed since you were there");
    // No page shows a version that is still to come.
    lesson.ticks("A", "on", "99").await.expect(303);
    lesson.tile("A").await.says("Seen at 10:42");
}

#[tokio::test]
async fn tick_of_a_colleague_carries_the_name() {
    let mut lesson = Lesson::new().await;
    lesson.ticks("A", "on", "0").await.expect(303);
    let mut colleague = lesson.teacher.colleague("Mr Tarn").await;
    let page = colleague.opens(&lesson.room("")).await;
    page.says("Seen by Ms Fell at 10:42");
}

#[tokio::test]
async fn page_that_stays_still_stays_so_after_a_tick() {
    let mut lesson = Lesson::new().await;
    let still = lesson.room("?still");
    let page = lesson.teacher.opens(&still).await;
    assert_eq!(page.at("#bench-B").value("still"), "1");
    let boxes = [
        ("bench", "B"),
        ("seen", "on"),
        ("version", "0"),
        ("still", "1"),
    ];
    let reply = lesson.does("/room/seen", &boxes).await;
    assert_eq!(reply.location(), format!("{still}#bench-B"));
}

#[tokio::test]
async fn tick_that_is_none_changes_nothing() {
    let mut lesson = Lesson::new().await;
    lesson.ticks("A", "perhaps", "0").await.expect(400);
    lesson.ticks("Z", "on", "0").await.expect(404);
    lesson.room_page().await.says_nothing_of("Seen at");
}
