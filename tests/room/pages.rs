//! The live pages: which there are, and what they are for.

use super::Lesson;
use crate::support::TestApp;

const PAGES: [&str; 5] = ["", "/tiles", "/changes", "/wall", "/wall/benches"];

#[tokio::test]
async fn unknown_class_set_is_404() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    for below in PAGES {
        let page = format!("/class-sets/99/room{below}");
        teacher.get(&page).await.expect(404);
    }
}

#[tokio::test]
async fn pages_say_that_they_are_for_teaching_practicals_only() {
    let app = TestApp::new().await;
    let mut lesson = Lesson::new(&app).await;
    let page = lesson.page().await;
    page.says("for teaching practicals only: where a practical is sat as an exam")
        .says(&format!("{}#help", lesson.set))
        .says_nothing_of(" style=")
        .says_nothing_of("<script>");
}
