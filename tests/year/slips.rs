//! The slips of a year.

use super::{Department, SMALL, head, head_of, sheets_with, store};
use crate::support::{Group, Lesson, teacher};

/// Wilson's 95 % interval in whole per cent, by the textbook formula.
fn wilson(made: f64, of: f64) -> String {
    let z2 = 1.959_964_f64.powi(2);
    let share = made / of;
    let middle = (share + z2 / (2.0 * of)) / (1.0 + z2 / of);
    let reach = (z2 * (share * (1.0 - share) / of + z2 / (4.0 * of * of))).sqrt() / (1.0 + z2 / of);
    format!(
        "{:.0} to {:.0} %",
        100.0 * (middle - reach),
        100.0 * (middle + reach)
    )
}

#[tokio::test]
async fn slip_is_counted_with_its_share_and_interval() {
    let mut at = Lesson::new().await;
    for label in ["A", "B", "C"] {
        at.hands_in(&Group::FORGETFUL, label).await;
    }
    at.hands_in(&Group::CAREFUL, "D").await;
    let page = at.teacher.opens("/year/slips").await;
    let row = page.section("all").at("tbody tr").cells();
    let interval = wilson(3.0, 4.0);
    assert_eq!(
        row[..4],
        ["enlargement left out", "3 of 4", "75 %", &interval]
    );
}

#[tokio::test]
async fn dismissed_slip_is_not_counted() {
    let mut at = Lesson::new().await;
    for label in ["A", "B"] {
        at.hands_in(&Group::FORGETFUL, label).await;
    }
    at.teacher.get("/year/slips").await.says(">2 of 2</a>");
    at.decides("slip-0", "dismissed", "measured in the water")
        .await;
    at.teacher.get("/year/slips").await.says(">1 of 2</a>");
}

#[tokio::test]
async fn work_that_is_only_saved_is_not_counted() {
    let mut at = Lesson::new().await;
    at.saves(&Group::FORGETFUL, "A").await;
    at.teacher
        .opens("/year/slips")
        .await
        .says("No slips in this year or the one before.");
    at.teacher
        .get("/year")
        .await
        .says("0 of 4 groups have handed in");
}

#[tokio::test]
async fn slip_in_the_readings_is_counted_only_where_it_is_confirmed() {
    let department = Department {
        counts_from_one: 0.5,
        ..SMALL
    };
    let mut head = head_of(&department).await;
    let confirmed: i64 = {
        let sql = "SELECT count(*) FROM decision WHERE slip = 'counted-from-one'";
        head.app.one(sql).await
    };
    // About half of the half are found.
    assert!((8..=30).contains(&confirmed), "{confirmed}");
    head.opens("/year/slips/readings/counted-from-one")
        .await
        .says("Count begun at one")
        .says(&format!("{confirmed} of 72 groups"));
    let sheets = sheets_with(&mut head, "readings.counted-from-one").await;
    assert_eq!(i64::try_from(sheets.len()).unwrap(), confirmed);
}

#[tokio::test]
async fn slip_is_told_by_class_by_month_and_by_term() {
    let mut head = head().await;
    let made = sheets_with(&mut head, "working.scale-left-out").await.len();
    let page = head.opens("/year/slips/working/scale-left-out").await;
    let page = page.says(&format!("{made} of 72 groups"));
    assert_eq!(page.section("class").count(" of 12"), 6);
    assert_eq!(page.section("month").all("tbody tr").len(), 2);
    head.get("/year/slips")
        .await
        .says("Autumn")
        .says("Spring")
        .says("Summer");
}

#[tokio::test]
async fn reteaching_is_judged_from_the_date_that_is_picked() {
    let mut head = head_of(&Department::WORN).await;
    let slip = "/year/slips/working/scale-left-out";
    head.opens(&format!("{slip}?from=2027-01-15"))
        .await
        .says("of the groups before 15 January 2027 (")
        .says("from then on (")
        .says(": fewer, by ");
    // Nobody had a lesson before the year began.
    head.opens(&format!("{slip}?from=2026-08-01"))
        .await
        .says("There is nothing to compare yet.");
    head.opens(&format!("{slip}?from=tomorrow"))
        .await
        .says("Type the date as 2027-01-15.");
}

#[tokio::test]
async fn change_since_the_year_before_has_an_interval() {
    let mut head = teacher().await;
    store(&head.app, &Department::WORN, 2025).await;
    let taught = Department {
        leaves_scale_out: [0.02, 0.02],
        ..Department::WORN
    };
    store(&head.app, &taught, 2026).await;
    let page = head.get("/year/slips").await.section("all");
    let change = &page.with("tbody tr", "enlargement left out").cells()[5];
    assert!(
        change.starts_with('−') && change.contains(" (−") && change.contains(" to −"),
        "{change}"
    );
}

#[tokio::test]
async fn slip_that_is_none_is_404() {
    let mut head = teacher().await;
    head.get("/year/slips/working/laziness").await.expect(404);
    head.get("/year/slips/sideways/scale-left-out")
        .await
        .expect(404);
    // Known, but nobody has made it.
    head.opens("/year/slips/working/scale-left-out").await;
}
