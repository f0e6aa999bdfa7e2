//! The inference that is kept of a class set, and when it is made anew.

use analysis::field::Field;
use analysis::reading::{Cause, Finding};

use crate::support::{Group, Lesson, finding, made_at};

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

/// Two groups hand in, and what is kept of them is ours.
async fn class() -> Lesson {
    let mut at = Lesson::handed_in(&Group::CAREFUL).await;
    at.hands_in(&Group::CAREFUL, "B").await;
    at.suggest(&[("B", ours())]).await;
    at
}

/// Whether summary and sheet of B show what is kept; both or neither.
async fn shows_ours(at: &mut Lesson) -> bool {
    let mut shows = Vec::new();
    for page in ["/summary", "/sheets/B"] {
        let main = at.page(page).await.at("main").words();
        shows.push(main.contains(OURS));
    }
    assert_eq!(shows[0], shows[1], "summary and sheet differ");
    shows[0]
}

#[tokio::test]
async fn kept_answer_is_used_while_no_group_changes() {
    let mut class = class().await;
    let made = made_at(&class.app, 1).await;
    class.app.clock.advance(60_000);
    assert!(shows_ours(&mut class).await, "the answer was made anew");
    assert!(shows_ours(&mut class).await, "the answer was made anew");
    assert_eq!(made_at(&class.app, 1).await, made, "kept once");
}

#[tokio::test]
async fn new_revision_of_any_group_makes_it_anew() {
    let mut class = class().await;
    class.sends_again(&Group::CAREFUL.level(1.02), "save").await;
    assert!(!shows_ours(&mut class).await, "stale");
}

#[tokio::test]
async fn another_kit_of_any_group_makes_it_anew() {
    let mut class = class().await;
    let elsewhere = Group::CAREFUL.kit("Tank 3");
    class.sends_again(&elsewhere, "hand_in").await;
    assert!(!shows_ours(&mut class).await, "stale");
}

#[tokio::test]
async fn group_that_begins_makes_it_anew() {
    let mut class = class().await;
    class.saves(&Group::CAREFUL, "C").await;
    assert!(!shows_ours(&mut class).await, "stale");
}

#[tokio::test]
async fn what_was_made_from_something_else_is_not_used() {
    let mut class = class().await;
    let other = "UPDATE inference SET state = hex(zeroblob(32))";
    class.app.run(other).await.unwrap();
    assert!(!shows_ours(&mut class).await, "stale");
}

#[tokio::test]
async fn what_cannot_be_read_or_is_gone_is_made_again() {
    let mut class = class().await;
    for sql in [
        "UPDATE inference SET body = '{\"written\": \"otherwise\"}'",
        "DELETE FROM inference",
    ] {
        class.app.run(sql).await.unwrap();
        assert!(!shows_ours(&mut class).await, "{sql}");
    }
}

#[tokio::test]
async fn nothing_is_kept_of_a_class_set_without_work() {
    let mut at = Lesson::new().await;
    at.page("/summary").await;
    assert_eq!(made_at(&at.app, 1).await, None);
}
