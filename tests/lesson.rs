//! A whole lesson in real browsers: ten groups at once, the room page, the
//! marking, the release, each group's own feedback sheet.

use crate::support::{Group, TestApp, walk};

#[tokio::test(flavor = "multi_thread")]
async fn ten_groups_are_watched_marked_and_each_reads_its_own_feedback() {
    let app = TestApp::new().await;
    app.teacher().await;
    let sheets = [Group::CAREFUL, Group::FORGETFUL].map(|group| group.boxes());
    let sheets = serde_json::to_string(&sheets).unwrap();
    walk(&app, "lesson.mjs", &[("SHEETS", &sheets)]).await;
}
