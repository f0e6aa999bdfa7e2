use super::keep;
use crate::support::{Browser, CLASS_SET, Group, Lesson, but};

async fn make(teacher: &mut Browser, class: &str, date: &str) -> String {
    let strings = but(CLASS_SET, "method", "string-loops");
    let boxes = but(but(strings, "class", class), "date", date);
    let made = teacher.sends("/class-sets/new", &boxes).await;
    made.location().to_owned()
}

#[tokio::test]
async fn registers_of_a_year_are_listed_with_who_still_owes() {
    let mut at = Lesson::new().await;
    at.hands_in(&Group::CAREFUL, "A").await;
    let boxes = [
        ("present.A", "3"),
        ("present.B", "4"),
        ("absent", "2"),
        ("absent.1.caught_up", "2026-11-24"),
        ("absent.2.caught_up", ""),
    ];
    keep(&mut at, &boxes).await.expect(303);
    make(&mut at.teacher, "10A/Ph1", "2026-10-01").await;
    let older = make(&mut at.teacher, "10A/Ph1", "2026-06-30").await;
    let page = at.teacher.opens("/registers").await;
    let page = page
        .says("Registers of 2026/27")
        .says("Still to catch up: 1.")
        .says("<a href=\"/registers?year=2025\">2025/26</a>")
        .says_nothing_of(&format!("{older}/register"));
    let rows = page.page().all("tbody tr");
    // By class: 10A before 10B.
    assert_eq!(rows.len(), 2);
    rows[0].at("th").says("10A/Ph1");
    assert_eq!(
        rows[1].cells(),
        [
            "10B/Ph2",
            "Ripples on water",
            "24 November 2026",
            "1 of 4",
            "7",
            "2",
            "1",
            "1"
        ]
    );
    assert_eq!(page.count("not filled in"), 1);

    let page = at.teacher.opens("/registers?year=2025").await;
    page.says("Registers of 2025/26")
        .says(&format!("{older}/register"));
    let page = at.teacher.opens("/registers?year=2030").await;
    page.says("There are no class sets in this year.");
    for year in ["99999", "-3", "9223372036854775807"] {
        at.teacher
            .get(&format!("/registers?year={year}"))
            .await
            .expect(404);
    }
    at.teacher.get("/registers?year=now").await.expect(400);
}

#[tokio::test]
async fn registers_of_a_year_are_one_file() {
    let mut at = Lesson::of_groups("ripple-tank", "2").await;
    let boxes = [("present.A", "3"), ("absent", "1")];
    keep(&mut at, &boxes).await.expect(303);
    make(&mut at.teacher, "=10A", "2026-10-01").await;
    make(&mut at.teacher, "10A/Ph1", "2026-06-30").await;
    let file = at.teacher.opens("/registers.csv").await;
    assert_eq!(file.header("content-type"), "text/csv; charset=utf-8");
    assert_eq!(
        file.header("content-disposition"),
        "attachment; filename=\"register-2026-2027.csv\""
    );
    insta::assert_snapshot!(file.text, @r"
    class,method,date,group,handed_in,present,initials,absent,caught_up_on
    10B/Ph2,ripple-tank,2026-11-24,A,,3,,,
    10B/Ph2,ripple-tank,2026-11-24,B,,0,,,
    10B/Ph2,ripple-tank,2026-11-24,,,,,1,
    '=10A,string-loops,2026-10-01,A,,,,,
    '=10A,string-loops,2026-10-01,B,,,,,
    '=10A,string-loops,2026-10-01,C,,,,,
    '=10A,string-loops,2026-10-01,D,,,,,
    ");
}
