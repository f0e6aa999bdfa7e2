//! The year in a real browser.

use simulator::year::Department;

use super::{class_sets, head, store};
use crate::support::stored_year::MarkAll;
use crate::support::{HEAD, walk};

#[tokio::test(flavor = "multi_thread")]
async fn head_of_department_follows_the_year_to_its_sheets_in_a_real_browser() {
    let app = head().await.app;
    store(&app, &Department::SOUND, 2025).await;
    for set in class_sets(&app).await.into_iter().rev().take(4) {
        app.act(HEAD, MarkAll(set)).await;
    }
    walk(&app, "year.mjs", &[]).await;
}
