//! What a tile says of its bench.

use crate::support::{Group, Lesson, counted, lamp, miscount, tied};
use analysis::reading::{Cause, Finding};
use analysis::slip::Slip;
use server::words::Say;

/// What is asked or checked of a cause, as a tile has it.
fn ask(verb: &str, cause: Cause) -> String {
    format!("{verb}: {}", server::words::cause::ask(cause))
}

#[tokio::test]
async fn tile_says_how_far_its_bench_has_come_and_since_when() {
    let mut lesson = Lesson::new().await;
    let tile = lesson.tile("A").await.says("Not begun");
    assert_eq!(tile.attr("class"), "not-begun");
    lesson.chooses("A").await;
    lesson.sends("save", "B").await;
    let (mut pupil, url) = lesson.sends("hand_in", "C").await;
    lesson.minutes_pass(1);
    let group = Group::CAREFUL.level(1.01);
    lesson.minutes_pass(2);
    lesson
        .tile("A")
        .await
        .says("Writing: chosen 3 minutes ago, nothing saved yet");
    lesson
        .tile("B")
        .await
        .says("Writing: saved 3 minutes ago, not handed in");
    let state = lesson.tile("C").await.at(".state").words();
    assert_eq!(state, "Handed in 3 minutes ago");
    group.sends_again("save", &mut pupil, &url).await;
    let tile = lesson.tile("C").await;
    tile.says("Handed in 3 minutes ago, changed just now");
    lesson
        .room_page()
        .await
        .says("1 of 4 handed in, 2 writing, 1 not begun")
        .says("Refreshed at <time>10:45:00</time>");
}

#[tokio::test]
async fn shown_and_inferred_slips_are_told_apart_each_with_its_question() {
    let mut lesson = Lesson::new().await;
    let group = Group::FORGETFUL.kit("Tank 1");
    lesson.hands_in(&group, "A").await;
    let findings = [("A", vec![counted(0.92), miscount(0.79)])];
    lesson.suggest(&findings).await;
    lesson
        .tile("A")
        .await
        .says(", Tank 1")
        .says("every row: count begun at one (inferred, 92 %)")
        .says(&ask("Ask", Cause::CountedFromOne))
        .says("wavelength, every row: enlargement left out (shown by their figures)")
        .says(&format!(
            "Ask: {}",
            Say::english().slip_ask(Slip::ScaleLeftOut)
        ))
        // Below the threshold of the bench.
        .says_nothing_of("79 %");
}

#[tokio::test]
async fn fault_of_the_kit_is_for_the_teacher_to_check() {
    let mut lesson = Lesson::new().await;
    lesson.sends("hand_in", "A").await;
    let findings = [("A", vec![lamp(0.9)])];
    lesson.suggest(&findings).await;
    lesson
        .tile("A")
        .await
        .says("A kit to check while it is up.")
        .says(&ask("Check", Cause::LampOff))
        .says_nothing_of("Ask:");
}

#[tokio::test]
async fn one_of_two_has_a_line_for_each() {
    let mut lesson = Lesson::new().await;
    lesson.sends("hand_in", "A").await;
    let either = tied(counted(0.9), Cause::DialOff);
    let findings = [("A", vec![either])];
    lesson.suggest(&findings).await;
    lesson
        .tile("A")
        .await
        .says("one of these two: every row: count begun at one; or dial out by a constant factor")
        .says(&ask("Ask", Cause::CountedFromOne))
        .says(&ask("Check", Cause::DialOff));
}

#[tokio::test]
async fn dismissed_slips_are_pointed_to_no_more() {
    let mut lesson = Lesson::new().await;
    lesson.hands_in(&Group::FORGETFUL, "A").await;
    lesson.tile("A").await.says("enlargement left out");
    lesson
        .decides("slip-0", "dismissed", "We talked it over.")
        .await;
    lesson
        .tile("A")
        .await
        .says("Nothing that calls for a visit.")
        .says_nothing_of("enlargement left out");
}

#[tokio::test]
async fn tile_points_to_three_things_at_most() {
    let mut lesson = Lesson::new().await;
    lesson.hands_in(&Group::FORGETFUL, "A").await;
    let row = |row, share| Finding {
        row: Some(row),
        ..miscount(share)
    };
    let findings = [("A", vec![row(0, 0.97), row(1, 0.96), row(2, 0.95)])];
    lesson.suggest(&findings).await;
    let tile = lesson.tile("A").await.says("And 1 more, on the sheet.");
    assert_eq!(tile.all(".slip").len(), 3, "{}", tile.html());
}

#[tokio::test]
async fn fragment_is_the_part_of_the_page_that_changes_and_nothing_else() {
    let mut lesson = Lesson::new().await;
    lesson.sends("hand_in", "B").await;
    let part = lesson.room("/tiles");
    let part = lesson.teacher.opens(&part).await;
    let page = lesson.room_page().await;
    assert!(page.text.contains(part.text.trim()), "{}", page.text);
    assert_eq!(part.header("content-type"), "text/html; charset=utf-8");
    part.says_nothing_of("<html").says("id=\"bench-B\"");
}

#[tokio::test]
async fn page_without_scripts_refreshes_itself_until_it_is_stopped() {
    let mut lesson = Lesson::new().await;
    let meta = "<noscript><meta http-equiv=\"refresh\" content=\"30\"></noscript>";
    let (page, still) = (lesson.room(""), lesson.room("?still"));
    let stop = format!("<a href=\"{still}\">Stop that</a>");
    let again = format!("<a href=\"{page}\">Let it refresh itself</a>");
    lesson.room_page().await.says(meta).says(&stop);
    let still = lesson.teacher.opens(&still).await;
    still.says_nothing_of("http-equiv").says(&again);
    let page = lesson.room_page().await;
    let script = page.at("script + script");
    lesson
        .teacher
        .opens(script.attr("src"))
        .await
        .says("EventSource");
    let elsewhere = lesson.teacher.get("/class-sets").await;
    elsewhere.says_nothing_of("room.js");
}

#[tokio::test]
async fn closed_class_set_still_shows_its_last_state() {
    let mut lesson = Lesson::new().await;
    lesson.sends("hand_in", "A").await;
    lesson.sends("save", "B").await;
    lesson.closes().await;
    lesson.minutes_pass(7);
    let page = lesson.room_page().await;
    page.says("Closed: this is how it stood")
        .says("Handed in 7 minutes ago")
        .says_nothing_of("Stuck")
        .says_nothing_of("http-equiv")
        .lacks("[name=until]");
}
