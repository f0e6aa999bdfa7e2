//! The live pages: which there are, and what they are for.

use crate::support::Lesson;

#[tokio::test]
async fn pages_say_that_they_are_for_teaching_practicals_only() {
    let mut lesson = Lesson::new().await;
    let page = lesson.room_page().await;
    page.says("for teaching practicals only: where a practical is sat as an exam")
        .says(&format!("{}#help", lesson.set))
        .says_nothing_of(" style=")
        .says_nothing_of("<script>");
}
