use super::{events, hours_later, keep};
use crate::support::{Group, Lesson};

#[tokio::test]
async fn numbers_of_a_class_are_kept_and_shown_again() {
    let mut at = Lesson::new().await;
    at.hands_in(&Group::CAREFUL, "A").await;
    let path = at.url("/register");
    let page = at.teacher.opens(&path).await;
    assert_eq!(page.hidden("present.A"), "");
    page.says("Not filled in yet.")
        .says("<td>Handed in at 10:42</td>")
        .says_nothing_of("initials.A");
    let boxes = [
        ("present.A", "3"),
        ("present.B", " 2 "),
        ("present.C", ""),
        ("absent", "2"),
    ];
    let done = keep(&mut at, &boxes).await.expect(303);
    assert_eq!(done.location(), path);
    let page = at.teacher.opens(&path).await;
    let page = page.says("Present: 5. Still to catch up: 2.");
    for (label, present) in [("A", "3"), ("B", "2"), ("C", "0"), ("D", "0")] {
        let name = format!("present.{label}");
        assert_eq!(page.hidden(&name), present, "{label}");
    }
    assert_eq!(page.count(".caught_up\" type=\"date\" value=\"\""), 2);
    let kept = (
        "register_kept".to_owned(),
        r#"{"absent":2,"caught_up":0,"present":5}"#.to_owned(),
    );
    assert_eq!(events(&at.app).await, [kept]);
}

#[tokio::test]
async fn absentee_catches_up_on_a_day_from_the_lesson_to_today() {
    let mut at = Lesson::new().await;
    keep(&mut at, &[("absent", "2")]).await.expect(303);
    hours_later(&mut at.teacher, 48).await;
    for (day, words) in [
        ("2026-11-23", "That day is before the lesson."),
        ("2026-11-27", "That day has not come yet."),
        ("2026-11-31", "Type the day as year-month-day"),
        ("soon", "Type the day as year-month-day"),
    ] {
        let boxes = [
            ("present.A", "4"),
            ("absent", "2"),
            ("absent.1.caught_up", ""),
            ("absent.2.caught_up", day),
        ];
        let page = keep(&mut at, &boxes).await.expect(422);
        page.says(&format!("id=\"absent.2.caught_up-error\">{words}"))
            .says("One box below cannot be kept as typed.")
            .says(&format!("value=\"{day}\""))
            .says("value=\"4\"");
    }
    for day in ["2026-11-24", "2026-11-26"] {
        let boxes = [
            ("absent", "2"),
            ("absent.1.caught_up", ""),
            ("absent.2.caught_up", day),
        ];
        keep(&mut at, &boxes).await.expect(303);
        let page = at.page("/register").await;
        page.says(&format!("value=\"{day}\""))
            .says("Still to catch up: 1.");
    }
    // No day at all again.
    let boxes = [
        ("absent", "2"),
        ("absent.1.caught_up", ""),
        ("absent.2.caught_up", ""),
    ];
    keep(&mut at, &boxes).await.expect(303);
    let page = at.page("/register").await;
    page.says("Still to catch up: 2.");
}

#[tokio::test]
async fn what_cannot_be_is_said_beside_its_box_and_nothing_is_lost() {
    let mut at = Lesson::new().await;
    for number in ["-1", "2.5", "three", "41", "99999999999999999999"] {
        let boxes = [
            ("present.A", number),
            ("present.B", "2"),
            ("absent", number),
        ];
        let page = keep(&mut at, &boxes).await.expect(422);
        let page = page
            .says("2 boxes below cannot be kept as typed.")
            .says("id=\"present.A-error\">Type a whole number from 0 to 40.")
            .says("id=\"absent-error\">Type a whole number from 0 to 40.")
            .says("aria-invalid=\"true\"");
        assert_eq!(page.count(&format!("value=\"{number}\"")), 2);
        assert_eq!(page.count("value=\"2\""), 1);
    }
    assert_eq!(events(&at.app).await, []);
}

#[tokio::test]
async fn absentee_with_a_day_is_not_dropped_by_a_smaller_number() {
    let mut at = Lesson::new().await;
    keep(&mut at, &[("absent", "3")]).await.expect(303);
    let days = [
        ("absent.1.caught_up", ""),
        ("absent.2.caught_up", "2026-11-24"),
        ("absent.3.caught_up", ""),
    ];
    let with = |number| [&[("absent", number)][..], &days[..]].concat();
    let page = keep(&mut at, &with("1")).await.expect(422);
    page.says("Something is filled in for absentee 2. Clear that first, or type 2.");
    keep(&mut at, &with("2")).await.expect(303);
    let page = at.page("/register").await;
    assert_eq!(page.count(".caught_up\" type=\"date\""), 2);
}

#[tokio::test]
async fn two_who_write_at_once_do_not_overwrite_each_other_unasked() {
    let mut at = Lesson::new().await;
    let seen = at.page("/register").await.hidden("seen");
    keep(&mut at, &[("present.A", "3")]).await.expect(303);
    let mine = [("seen", seen.as_str()), ("present.A", "4")];
    let page = at.posts("/register", &mine).await.expect(409);
    let page = page
        .says("Somebody else has changed this register")
        .says("value=\"4\"");
    at.page("/register").await.says("value=\"3\"");
    // The button again: it is meant.
    let seen = page.hidden("seen");
    let mine = [("seen", seen.as_str()), ("present.A", "4")];
    for _ in 0..2 {
        at.does("/register", &mine).await;
    }
    at.page("/register").await.says("value=\"4\"");
    assert_eq!(events(&at.app).await.len(), 2);
}

#[tokio::test]
async fn register_of_a_class_set_is_a_file_and_a_sheet_of_the_workbook() {
    use calamine::Reader as _;
    let mut at = Lesson::of_groups("ripple-tank", "2").await;
    at.hands_in(&Group::CAREFUL, "A").await;
    let boxes = [
        ("present.A", "3"),
        ("absent", "1"),
        ("absent.1.caught_up", "2026-11-24"),
    ];
    keep(&mut at, &boxes).await.expect(303);
    let file = at.page("/files/register.csv").await;
    insta::assert_snapshot!(file.text, @r"
    class,method,date,group,handed_in,present,initials,absent,caught_up_on
    10B/Ph2,ripple-tank,2026-11-24,A,2026-11-24 10:42,3,,,
    10B/Ph2,ripple-tank,2026-11-24,B,,0,,,
    10B/Ph2,ripple-tank,2026-11-24,,,,,1,2026-11-24
    ");
    let book = at.page("/files/workbook.xlsx").await;
    let mut book = book.workbook();
    let sheet = book.worksheet_range("Register").expect("a sheet");
    assert_eq!(sheet.rows().count(), 4);
}
