//! The year in a real browser.

use super::{class_sets, head, store, stored_year};
use crate::support::school::School;
use crate::support::{TestApp, walk};

#[tokio::test(flavor = "multi_thread")]
async fn head_of_department_follows_the_year_to_its_sheets_in_a_real_browser() {
    let app = TestApp::new().await;
    head(&app).await;
    store(&app, &School::SOUND, 2025).await;
    for set in class_sets(&app).await.into_iter().rev().take(4) {
        let marked = app.store.writer().run(move |db| {
            Box::pin(async move { stored_year::mark(db, set, server::ids::StaffId(1)).await })
        });
        marked.await.unwrap();
    }
    walk(&app, "year.mjs", &[]).await;
}
