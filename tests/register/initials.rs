use server::clock::{HOUR, Zone};
use server::upkeep::{blank_when_due, every_hour};

use super::{events, hours_later, keep};
use crate::support::{Browser, Lesson, TestApp, teacher};

/// Switches initials on until a day.
async fn keep_until(head: &mut Browser, day: &str) {
    let boxes = [("keep", "yes"), ("until", day)];
    head.sends("/upkeep", &boxes).await;
}

/// A class set of a department that keeps initials until a day, with the
/// register filled in.
async fn kept_until(day: &str) -> Lesson {
    let mut at = Lesson::new().await;
    keep_until(&mut at.teacher, day).await;
    keep(&mut at, &BOXES).await.expect(303);
    at
}

/// The initials that are in the data file.
async fn stored(app: &TestApp) -> Vec<String> {
    app.values("SELECT initials FROM register_line WHERE initials <> '' ORDER BY id")
        .await
}

fn zone() -> Zone {
    Zone(jiff::tz::TimeZone::get("Europe/London").unwrap())
}

const BOXES: [(&str, &str); 6] = [
    ("present.A", "3"),
    ("initials.A", "AB, cd"),
    ("present.B", ""),
    ("initials.B", "E.F."),
    ("absent.1.initials", "GH"),
    ("absent.1.caught_up", ""),
];

#[tokio::test]
async fn initials_are_neither_asked_for_nor_kept_unless_the_head_says_so() {
    let mut at = Lesson::new().await;
    keep(&mut at, &BOXES).await.expect(303);
    assert_eq!(stored(&at.app).await, [""; 0]);
    let page = at.page("/register").await;
    page.says_nothing_of("Initials").says("value=\"3\"");
    let page = at.teacher.opens("/upkeep").await;
    page.says("The registers hold no initials.");
}

#[tokio::test]
async fn initials_are_kept_beside_the_numbers() {
    let mut at = kept_until("2027-08-31").await;
    assert_eq!(stored(&at.app).await, ["AB", "cd", "EF", "GH"]);
    let page = at.page("/register").await;
    page.says("Present: 4. Still to catch up: 1.")
        .says("value=\"AB cd\"")
        .says("value=\"EF\"")
        .says("value=\"GH\"");
    let file = at.page("/files/register.csv").await;
    file.says(",A,,3,AB cd,,\n").says(",,,,GH,1,\n");
    let page = at.teacher.opens("/upkeep").await;
    page.says("The registers hold initials, until 31 August 2027.")
        .says("Those of 4 pupils are stored now.");
    for (what, detail) in events(&at.app).await {
        for initials in ["AB", "cd", "EF", "GH"] {
            assert!(!detail.contains(initials), "{what}: {detail}");
        }
    }
}

#[tokio::test]
async fn what_is_no_initials_is_said_beside_its_box() {
    let mut at = Lesson::new().await;
    keep_until(&mut at.teacher, "2027-08-31").await;
    for (name, text, words) in [
        ("initials.A", "AB Katherine", "“Katherine” cannot be kept"),
        ("initials.A", "A1", "at most 6 letters"),
        ("initials.A", "AB CD EF GH", "There are initials of 4."),
        ("absent.1.initials", "AB CD", "cannot be kept"),
    ] {
        let boxes = [
            ("present.A", "3"),
            ("absent", "1"),
            ("absent.1.caught_up", "2026-11-24"),
            (name, text),
        ];
        let page = keep(&mut at, &boxes).await.expect(422);
        page.says(words).says(&format!("value=\"{text}\""));
    }
    assert_eq!(stored(&at.app).await, [""; 0]);
}

#[tokio::test]
async fn only_a_head_sets_what_is_kept_and_names_a_day_to_come() {
    let mut head = teacher().await;
    for (keep, until, words) in [
        ("yes", "", "Type the day as year-month-day"),
        ("yes", "2026-11-24", "Choose a day after today."),
        ("yes", "2100-01-01", "Choose a day before the year 2100."),
        ("yes", "2026-02-30", "Type the day as year-month-day"),
        ("yes", "31.8.2027", "Type the day as year-month-day"),
        ("perhaps", "2027-08-31", "Choose one of the two."),
    ] {
        let boxes = [("keep", keep), ("until", until)];
        let page = head.post_staff("/upkeep", &boxes).await.expect(422);
        page.says(words).says(&format!("value=\"{until}\""));
    }
    let mut colleague = head.colleague("Mr Tarn").await;
    let boxes = [("keep", "yes"), ("until", "2027-08-31")];
    colleague.post_staff("/upkeep", &boxes).await.expect(403);
    let page = colleague.opens("/upkeep").await;
    page.says("The head of department sets this.")
        .lacks("[name=keep]");
    assert_eq!(events(&head.app).await, []);
}

#[tokio::test]
async fn switching_off_asks_first_and_then_blanks_at_once() {
    let mut at = kept_until("2027-08-31").await;
    let off = [("keep", "no"), ("until", "2027-08-31")];
    let page = at.teacher.post_staff("/upkeep", &off).await.expect(200);
    page.says("Blank all initials?")
        .says("The initials of 4 pupils are blanked at once");
    assert_eq!(stored(&at.app).await.len(), 4);
    let confirmed = [("keep", "no"), ("confirm", "yes")];
    at.teacher.sends("/upkeep", &confirmed).await;
    assert_eq!(stored(&at.app).await, [""; 0]);
    let page = at.page("/register").await;
    page.says("Present: 4. Still to catch up: 1.")
        .says_nothing_of("AB");
    let blanked = ("initials_blanked".to_owned(), r#"{"pupils":4}"#.to_owned());
    assert_eq!(events(&at.app).await.last(), Some(&blanked));
}

#[tokio::test]
async fn initials_are_blanked_when_their_day_begins_in_the_schools_zone() {
    let at = kept_until("2026-11-25").await;
    // 23:42 of the day before.
    at.app.clock.advance(13 * HOUR);
    blank_when_due(&at.app.store, at.app.clock.now(), &zone())
        .await
        .unwrap();
    assert_eq!(stored(&at.app).await.len(), 4);
    // 00:42 of the day.
    at.app.clock.advance(HOUR);
    blank_when_due(&at.app.store, at.app.clock.now(), &zone())
        .await
        .unwrap();
    assert_eq!(stored(&at.app).await, [""; 0]);
    let blanked = ("initials_blanked".to_owned(), r#"{"pupils":4}"#.to_owned());
    assert_eq!(events(&at.app).await.last(), Some(&blanked));
    // Once is enough.
    blank_when_due(&at.app.store, at.app.clock.now(), &zone())
        .await
        .unwrap();
    assert_eq!(events(&at.app).await.len(), 3);
}

#[tokio::test]
async fn initials_whose_day_came_while_the_program_was_off_go_at_its_start() {
    let at = kept_until("2026-11-25").await;
    at.app.clock.advance(100 * 24 * HOUR);
    let task = tokio::spawn(every_hour(
        at.app.store.clone(),
        at.app.clock.clone(),
        zone(),
    ));
    for _ in 0..2000 {
        if stored(&at.app).await.is_empty() {
            task.abort();
            return;
        }
        tokio::time::sleep(std::time::Duration::from_millis(5)).await;
    }
    panic!("initials are still there");
}

#[tokio::test]
async fn no_initials_are_kept_from_their_day_on_even_before_the_hour_strikes() {
    let mut at = Lesson::new().await;
    keep_until(&mut at.teacher, "2026-11-25").await;
    let seen = at.page("/register").await.says("initials.A").hidden("seen");
    hours_later(&mut at.teacher, 14).await;
    let mut boxes = vec![("seen", seen.as_str())];
    boxes.extend(BOXES);
    at.does("/register", &boxes).await;
    assert_eq!(stored(&at.app).await, [""; 0]);
    at.page("/register")
        .await
        .says("Present: 4.")
        .says_nothing_of("Initials");
}

#[tokio::test]
async fn privacy_page_says_what_is_true_of_initials() {
    let app = TestApp::new().await;
    let page = app.get("/privacy").await.expect(200);
    page.says("Your name, your initials, your e-mail address")
        .says_nothing_of("wiped");
    let mut head = app.teacher().await;
    keep_until(&mut head, "2027-08-31").await;
    let page = app.get("/privacy").await.expect(200);
    page.says("Initials, if your teacher writes them into the register.")
        .says("They are wiped on 31 August 2027.")
        .says("Your name, your e-mail address");
}

#[tokio::test]
async fn where_there_are_several_departments_the_page_tells_the_latest_day_and_each_is_blanked() {
    let mut head = teacher().await;
    keep_until(&mut head, "2026-11-25").await;
    let sql = "INSERT INTO department (id, name, keeps_initials, initials_until)
               VALUES (2, 'Other department', 1, '2026-11-27'), (3, 'Third department', 0, NULL)";
    sqlx::query(sql)
        .execute(&mut head.app.sql().await)
        .await
        .unwrap();
    let page = head.app.get("/privacy").await.expect(200);
    page.says("They are wiped on 27 November 2026 at the latest.");
    head.app.clock.advance(3 * 24 * HOUR);
    blank_when_due(&head.app.store, head.app.clock.now(), &zone())
        .await
        .unwrap();
    let kept: i64 = head
        .app
        .one("SELECT count(*) FROM department WHERE keeps_initials = 1")
        .await;
    assert_eq!(kept, 0);
    let page = head.app.get("/privacy").await.expect(200);
    page.says_nothing_of("They are wiped on");
}
