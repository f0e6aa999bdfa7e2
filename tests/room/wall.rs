//! The view for a projector.

use super::labels;
use crate::support::{Group, Lesson, counted, lamp};

#[tokio::test]
async fn wall_says_who_has_handed_in_and_how_long_there_is() {
    let mut lesson = Lesson::new().await;
    lesson.sends("hand_in", "A").await;
    lesson.sends("save", "B").await;
    lesson.chooses("C").await;
    let until = [("until", "10:54")];
    lesson.does("/room/stop", &until).await;
    let page = lesson.page("/room/wall").await;
    assert_eq!(labels(&page), "ABCD");
    page.says("12 minutes left, until 10:54")
        .says("<strong>A</strong> handed in")
        .says("<strong>B</strong> writing")
        .says("<strong>C</strong> writing")
        .says("<strong>D</strong> not begun")
        .says("1 of 4 handed in")
        .says("For teaching practicals only");
}

#[tokio::test]
async fn wall_names_no_slip_no_question_and_no_kit() {
    let mut lesson = Lesson::new().await;
    let group = Group::FORGETFUL.kit("Tank 7");
    lesson.hands_in(&group, "A").await;
    let findings = [("A", vec![counted(0.97), lamp(0.9)])];
    lesson.suggest(&findings).await;
    lesson.ticks("A", "on", "1").await.expect(303);
    lesson.tile("A").await.says("Tank 7").at(".slip.inferred");
    for below in ["/wall", "/wall/benches"] {
        let page = lesson.teacher.opens(&lesson.room(below)).await;
        for said in [
            "Tank 7",
            "class=\"slip",
            "enlargement",
            "Ask:",
            "Check:",
            "Seen at",
        ] {
            assert!(!page.text.contains(said), "{below} says {said}");
        }
    }
}

#[tokio::test]
async fn part_that_changes_is_the_walls_own() {
    let mut lesson = Lesson::new().await;
    let page = lesson.page("/room/wall").await;
    let part = page.at("[data-part]").attr("data-part").to_owned();
    assert_eq!(part, lesson.room("/wall/benches"));
    let part = lesson.teacher.opens(&part).await;
    assert!(page.text.contains(part.text.trim()), "{}", page.text);
    let still = lesson.room("/wall?still");
    page.says("http-equiv=\"refresh\" content=\"30\"")
        .says(&still);
    let page = lesson.teacher.opens(&still).await;
    page.says_nothing_of("http-equiv");
}
