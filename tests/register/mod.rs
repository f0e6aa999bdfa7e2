//! Who did the practical, for the department's own record.

mod initials;
mod keep;
mod year;

use server::clock::HOUR;

use crate::support::{Browser, NAME, PASSWORD, Reply, TestApp};

/// Sends the register of a class set as the page of now would.
pub(crate) async fn keep(teacher: &mut Browser<'_>, set: &str, boxes: &[(&str, &str)]) -> Reply {
    let path = format!("{set}/register");
    let seen = teacher.opens(&path).await.hidden("seen");
    let mut all = vec![("seen", seen.as_str())];
    all.extend_from_slice(boxes);
    teacher.post_staff(&path, &all).await
}

/// Lets so many hours pass, after which the teacher signs in again.
pub(crate) async fn hours_later(app: &TestApp, teacher: &mut Browser<'_>, hours: i64) {
    app.clock.advance(hours * HOUR);
    let who = [("name", NAME), ("password", PASSWORD)];
    teacher.post("/staff/sign-in", &who).await.expect(303);
}

/// Everything that the events say.
pub(crate) async fn events(app: &TestApp) -> Vec<(String, String)> {
    sqlx::query_as("SELECT what, detail FROM event WHERE what LIKE 'register%' OR what LIKE 'initials%' ORDER BY id")
        .fetch_all(&mut app.sql().await)
        .await
        .unwrap()
}
