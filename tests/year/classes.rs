//! The classes of a year.

use simulator::year::Department;

use super::{class_sets, head, head_of};
use crate::support::stored_year::MarkAll;
use crate::support::{Browser, Group, HEAD, Lesson, Part};

#[tokio::test]
async fn classes_are_in_the_order_of_the_timetable() {
    let mut head = head().await;
    let page = head.opens("/year/classes").await;
    let table = page.at("[aria-label='Ripples on water: speeds'] table");
    let names: Vec<_> = table.all("th[scope=row]").iter().map(Part::words).collect();
    // Monday's second class comes after Monday's first, by the time of day.
    let order = [
        "10A/Ph1", "11C/Ph3", "10B/Ph2", "10C/Ph3", "11A/Ph1", "11B/Ph2",
    ];
    assert_eq!(names, order);
}

#[tokio::test]
async fn class_of_few_groups_is_said_to_say_little() {
    let mut at = Lesson::new().await;
    for label in ["A", "B", "C"] {
        at.hands_in(&Group::CAREFUL, label).await;
    }
    at.teacher
        .opens("/year/classes")
        .await
        .says("3 of 4")
        .says("so few groups say little");
    at.teacher
        .get("/year")
        .await
        .says("There are too few groups yet to compare classes.");
}

#[tokio::test]
async fn classes_are_compared_and_not_ranked() {
    let rough = Department {
        groups: 8,
        ..Department::SOUND
    };
    let mut head = head_of(&rough).await;
    head.opens("/year/classes")
        .await
        .says("(repeatability)")
        .says("(reproducibility)")
        .says("They are not ranked")
        .says_nothing_of("best")
        .says_nothing_of("worst");
}

#[tokio::test]
async fn marks_have_a_mean_where_sheets_are_marked() {
    let mut head = head().await;
    head.get("/year/classes")
        .await
        .says_nothing_of("Groups marked");
    let set = class_sets(&head.app).await[0];
    head.app.act(HEAD, MarkAll(set)).await;
    let page = head.opens("/year/classes").await;
    let table = page.page().with("table", "Marks as a share of full marks");
    let row = table.with("tbody tr", "10A/Ph1").cells();
    assert_eq!(row[1], "6");
    let shares = row.iter().filter(|cell| cell.ends_with(" %"));
    assert_eq!(shares.count(), 2, "a mean and its interval: {row:?}");
}

#[tokio::test]
async fn class_page_lists_its_lessons_with_every_group() {
    let mut head = head().await;
    let page = head.opens("/year/classes/1").await;
    assert_eq!(page.count("<caption>The groups of "), 4);
    assert_eq!(page.count("aria-label=\"Sheet of group"), 24);
    head.get("/year/classes/99").await.expect(404);
    // A class of this year is none of another's.
    head.get("/year/classes/1?year=2025").await.expect(404);
}

/// A mark that was taken back is none: its sheet is not marked on every point
/// any more, and says nothing of how marks are spread.
#[tokio::test]
async fn mark_that_was_taken_back_does_not_count() {
    let mut head = head().await;
    let set = class_sets(&head.app).await[0];
    head.app.act(HEAD, MarkAll(set)).await;
    let sheets_marked = async |head: &mut Browser| {
        let csv = head.opens("/year/classes.csv").await;
        let lines = csv.lines().into_iter();
        let marked = lines.map(|line| line["marked"].parse::<i64>().unwrap());
        marked.sum::<i64>()
    };
    assert_eq!(sheets_marked(&mut head).await, 6);
    let marking = format!("/class-sets/{set}/marking");
    // Each sheet was marked in an act of its own: the sixth was the last.
    let back = format!("{marking}/sheets/F");
    head.sends(&format!("{marking}/undo"), &[("back", &back)])
        .await;
    assert_eq!(sheets_marked(&mut head).await, 5);
}
