//! Who did the practical, for the department's own record.

mod initials;
mod keep;
mod year;

use server::clock::HOUR;

use crate::support::{Browser, Lesson, Reply, TestApp};

/// Sends the register of a class set as the page of now would.
pub(crate) async fn keep(at: &mut Lesson, boxes: &[(&str, &str)]) -> Reply {
    let seen = at.page("/register").await.hidden("seen");
    let mut all = vec![("seen", seen.as_str())];
    all.extend_from_slice(boxes);
    at.posts("/register", &all).await
}

/// Lets so many hours pass, after which the teacher signs in again.
pub(crate) async fn hours_later(teacher: &mut Browser, hours: i64) {
    teacher.app.clock.advance(hours * HOUR);
    teacher.signs_in().await;
}

/// Everything that the events say.
pub(crate) async fn events(app: &TestApp) -> Vec<(String, String)> {
    app.rows("SELECT what, detail FROM event WHERE what LIKE 'register%' OR what LIKE 'initials%' ORDER BY id").await
}
