//! The main job in a real browser, with scripts on and off.

use crate::support::{TestApp, walk};

#[tokio::test(flavor = "multi_thread")]
async fn a_pupil_hands_in_a_slip_and_the_teacher_sees_it_in_a_real_browser() {
    let app = TestApp::new().await;
    app.teacher().await;
    walk(&app, "walk.mjs", &[]).await;
}
