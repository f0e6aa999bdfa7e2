//! The slips of a year.

use super::{SCHOOL, School, head, sheets_with, store};
use crate::support::{Group, TestApp};

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
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let (_, code) = head.make_class_set("ripple-tank").await;
    for label in ["A", "B", "C"] {
        Group::FORGETFUL.sends("hand_in", &app, &code, label).await;
    }
    Group::CAREFUL.sends("hand_in", &app, &code, "D").await;
    let page = head.get("/year/slips").await.expect(200);
    let row = page.part("Table of slips\"", "</tr>\n  </tbody>");
    row.says("enlargement left out")
        .says(">3 of 4</a>")
        .says("75 %")
        .says(&wilson(3.0, 4.0));
}

#[tokio::test]
async fn dismissed_slip_is_not_counted() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let (set, code) = head.make_class_set("ripple-tank").await;
    for label in ["A", "B"] {
        Group::FORGETFUL.sends("hand_in", &app, &code, label).await;
    }
    head.get("/year/slips").await.says(">2 of 2</a>");
    let sheet = format!("{set}/sheets/A");
    let page = head.get(&sheet).await.expect(200);
    let hidden = ["revision", "step", "slip", "row"].map(|name| (name, page.hidden(name)));
    let mut boxes: Vec<_> = hidden.iter().map(|(n, v)| (*n, v.as_str())).collect();
    boxes.extend([
        ("verdict", "dismissed"),
        ("reason", "measured in the water"),
    ]);
    head.post_staff(&format!("{sheet}/decision"), &boxes)
        .await
        .expect(303);
    head.get("/year/slips").await.says(">1 of 2</a>");
}

#[tokio::test]
async fn work_that_is_only_saved_is_not_counted() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let (_, code) = head.make_class_set("ripple-tank").await;
    Group::FORGETFUL.sends("save", &app, &code, "A").await;
    head.get("/year/slips")
        .await
        .expect(200)
        .says("No slips in this year or the one before.");
    head.get("/year").await.says("0 of 4 groups have handed in");
}

#[tokio::test]
async fn slip_in_the_readings_is_counted_only_where_it_is_confirmed() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let school = School {
        counts_from_one: 0.5,
        ..SCHOOL
    };
    store(&app, &school, 2026).await;
    let confirmed: i64 = {
        let sql = "SELECT count(*) FROM decision WHERE slip = 'counted-from-one'";
        sqlx::query_scalar(sql)
            .fetch_one(&mut app.sql().await)
            .await
            .unwrap()
    };
    // About half of the half are found.
    assert!((8..=30).contains(&confirmed), "{confirmed}");
    head.get("/year/slips/readings/counted-from-one")
        .await
        .expect(200)
        .says("Count begun at one")
        .says(&format!("{confirmed} of 72 groups"));
    let sheets = sheets_with(&mut head, "readings.counted-from-one").await;
    assert_eq!(i64::try_from(sheets.len()).unwrap(), confirmed);
}

#[tokio::test]
async fn slip_is_told_by_class_by_month_and_by_term() {
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    let made = sheets_with(&mut head, "working.scale-left-out").await.len();
    let page = head
        .get("/year/slips/working/scale-left-out")
        .await
        .expect(200);
    let page = page.says(&format!("{made} of 72 groups"));
    let classes = page.between("Table of classes\"", "</table>");
    assert_eq!(classes.matches(" of 12</a>").count(), 6);
    let months = page.between("by the month of the lesson", "</table>");
    assert_eq!(months.matches("<th scope=\"row\">").count(), 2, "{months}");
    head.get("/year/slips")
        .await
        .says("Autumn")
        .says("Spring")
        .says("Summer");
}

#[tokio::test]
async fn reteaching_is_judged_from_the_date_that_is_picked() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    store(&app, &School::WORN, 2026).await;
    let slip = "/year/slips/working/scale-left-out";
    head.get(&format!("{slip}?from=2027-01-15"))
        .await
        .expect(200)
        .says("of the groups before 15 January 2027 (")
        .says("from then on (")
        .says(": fewer, by ");
    // Nobody had a lesson before the year began.
    head.get(&format!("{slip}?from=2026-08-01"))
        .await
        .expect(200)
        .says("There is nothing to compare yet.");
    head.get(&format!("{slip}?from=tomorrow"))
        .await
        .expect(200)
        .says("Type the date as 2027-01-15.");
}

#[tokio::test]
async fn change_since_the_year_before_has_an_interval() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    store(&app, &School::WORN, 2025).await;
    let taught = School {
        leaves_scale_out: [0.02, 0.02],
        ..School::WORN
    };
    store(&app, &taught, 2026).await;
    let row = head
        .get("/year/slips")
        .await
        .part("enlargement left out</a></th>", "</tr>");
    let change = row.between("<td class=\"num\">−", "</td>");
    assert!(
        change.contains(" (−") && change.contains(" to −"),
        "{change}"
    );
}

#[tokio::test]
async fn slip_that_is_none_is_404() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    head.get("/year/slips/working/laziness").await.expect(404);
    head.get("/year/slips/sideways/scale-left-out")
        .await
        .expect(404);
    // Known, but nobody has made it.
    head.get("/year/slips/working/scale-left-out")
        .await
        .expect(200);
}
