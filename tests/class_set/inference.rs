//! The inference that is kept of a class set, and when it is made anew.

use analysis::field::Field;
use analysis::reading::{Cause, Finding};

use crate::support::{Browser, Group, TestApp, finding, made_at, suggest};

/// Told from anything that the program would say by itself.
fn ours() -> Vec<Finding> {
    vec![finding(
        Cause::CrestMiscount,
        Some(0),
        Field::LastCrest,
        0.9,
    )]
}

const OURS: &str = "would fit the others if 9 waves were counted, not 10.";

struct Class<'a> {
    teacher: Browser<'a>,
    set: String,
    /// The browser of group B, and its address.
    pupil: Browser<'a>,
    url: String,
}

/// Two groups hand in, and what is kept of them is ours.
async fn class<'a>(app: &'a TestApp) -> Class<'a> {
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    Group::CAREFUL.sends("hand_in", app, &code, "A").await;
    let (pupil, url) = Group::CAREFUL.sends("hand_in", app, &code, "B").await;
    suggest(app, &mut teacher, &set, &[("A", ours())]).await;
    Class {
        teacher,
        set,
        pupil,
        url,
    }
}

impl Class<'_> {
    /// Whether summary and sheet of A show what is kept; both or neither.
    async fn shows_ours(&mut self) -> bool {
        let mut shows = Vec::new();
        for page in ["summary", "sheets/A"] {
            let page = self.teacher.get(&format!("{}/{page}", self.set)).await;
            shows.push(page.expect(200).text.contains(OURS));
        }
        assert_eq!(shows[0], shows[1], "summary and sheet differ");
        shows[0]
    }
}

#[tokio::test]
async fn kept_answer_is_used_while_no_group_changes() {
    let app = TestApp::new().await;
    let mut class = class(&app).await;
    let made = made_at(&app, 1).await;
    app.clock.advance(60_000);
    assert!(class.shows_ours().await, "the answer was made anew");
    assert!(class.shows_ours().await, "the answer was made anew");
    assert_eq!(made_at(&app, 1).await, made, "kept once");
}

#[tokio::test]
async fn new_revision_of_any_group_makes_it_anew() {
    let app = TestApp::new().await;
    let mut class = class(&app).await;
    let other = Group::CAREFUL.level(1.02);
    other
        .sends_again("save", &mut class.pupil, &class.url)
        .await;
    assert!(!class.shows_ours().await, "stale");
}

#[tokio::test]
async fn another_kit_of_any_group_makes_it_anew() {
    let app = TestApp::new().await;
    let mut class = class(&app).await;
    let other = Group::CAREFUL.kit("Tank 3");
    other
        .sends_again("hand_in", &mut class.pupil, &class.url)
        .await;
    assert!(!class.shows_ours().await, "stale");
}

#[tokio::test]
async fn group_that_begins_makes_it_anew() {
    let app = TestApp::new().await;
    let mut class = class(&app).await;
    let (code, _) = class.url[3..].split_once('/').unwrap();
    Group::CAREFUL.sends("save", &app, code, "C").await;
    assert!(!class.shows_ours().await, "stale");
}

#[tokio::test]
async fn what_was_made_from_something_else_is_not_used() {
    let app = TestApp::new().await;
    let mut class = class(&app).await;
    let sql = "UPDATE inference SET state = hex(zeroblob(32))";
    sqlx::query(sql)
        .execute(&mut app.sql().await)
        .await
        .unwrap();
    assert!(!class.shows_ours().await, "stale");
}

#[tokio::test]
async fn what_cannot_be_read_or_is_gone_is_made_again() {
    let app = TestApp::new().await;
    let mut class = class(&app).await;
    for sql in [
        "UPDATE inference SET body = '{\"written\": \"otherwise\"}'",
        "DELETE FROM inference",
    ] {
        sqlx::query(sql)
            .execute(&mut app.sql().await)
            .await
            .unwrap();
        assert!(!class.shows_ours().await, "{sql}");
    }
}

#[tokio::test]
async fn nothing_is_kept_of_a_class_set_without_work() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, _) = teacher.make_class_set("ripple-tank").await;
    teacher.opens(&format!("{set}/summary")).await;
    assert_eq!(made_at(&app, 1).await, None);
}
