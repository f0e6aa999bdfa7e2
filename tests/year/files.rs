//! The year's tables as files.

use std::collections::HashMap;

use super::{SCHOOL, School, colleague, head, store};
use crate::support::{Browser, Group, TestApp};

/// A CSV file as lines of named cells.
async fn lines(browser: &mut Browser<'_>, file: &str) -> Vec<HashMap<String, String>> {
    let reply = browser.get(&format!("/year/{file}")).await.expect(200);
    assert_eq!(reply.header("content-type"), "text/csv; charset=utf-8");
    let name = file.split('?').next().unwrap();
    let saved_as = format!("attachment; filename=\"year-2026-{name}\"");
    assert_eq!(reply.header("content-disposition"), saved_as);
    let mut table = csv::Reader::from_reader(reply.text.as_bytes());
    table.deserialize().map(Result::unwrap).collect()
}

fn figure(line: &HashMap<String, String>, column: &str) -> f64 {
    line[column]
        .parse()
        .unwrap_or_else(|_| panic!("{column} of {line:?}"))
}

#[tokio::test]
async fn kits_file_says_what_the_page_says() {
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    let kits = lines(&mut head, "kits.csv").await;
    assert_eq!(kits.len(), 9);
    let dial = kits
        .iter()
        .find(|line| line["kit"] == "Generator 3")
        .unwrap();
    assert_eq!(
        (dial["standing"].as_str(), dial["looks_like"].as_str()),
        ("off", "dial")
    );
    assert!(
        figure(dial, "off_low") < 0.08 && figure(dial, "off_high") > 0.06,
        "{dial:?}"
    );
    let page = head.get("/year/kits").await.expect(200);
    let high = format!(
        "Generator 3 reads {:.0} % high",
        100.0 * figure(dial, "off")
    );
    page.says(&high);
    let lessons = lines(&mut head, "kit-lessons.csv").await;
    let of_tank = lessons.iter().filter(|line| line["kit"] == "Tank 1");
    let sheets: f64 = of_tank.map(|line| figure(line, "sheets")).sum();
    let tank = kits.iter().find(|line| line["kit"] == "Tank 1").unwrap();
    assert!((sheets - figure(tank, "sheets")).abs() < 0.5);
}

#[tokio::test]
async fn slips_file_has_every_share_of_every_slip() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    store(&app, &SCHOOL, 2026).await;
    store(&app, &School::SOUND, 2025).await;
    let slips = lines(&mut head, "slips.csv").await;
    let of = |split: &str| -> f64 {
        let lines = slips.iter().filter(|line| {
            line["slip"] == "scale-left-out" && line["split"] == split && line["name"] != "2025"
        });
        lines.map(|line| figure(line, "groups")).sum()
    };
    let whole = of("year");
    assert!(whole > 10.0, "{whole}");
    for sum in [
        of("class"),
        of("month"),
        of("first practical") + of("later practicals"),
    ] {
        assert!((sum - whole).abs() < 0.5, "{sum} for {whole}");
    }
    assert!(
        slips
            .iter()
            .any(|line| line["split"] == "year" && line["name"] == "2025")
    );
}

#[tokio::test]
async fn sheets_file_has_the_sheets_that_are_asked_for() {
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    assert_eq!(lines(&mut head, "sheets.csv").await.len(), 144);
    let at_tank = lines(&mut head, "sheets.csv?kit=1").await;
    assert_eq!(at_tank.len(), 24);
    for line in at_tank {
        assert_eq!(line["kit"], "Tank 1");
        let ratio = figure(&line, "speed") / figure(&line, "expected_speed");
        assert!((ratio - figure(&line, "ratio")).abs() < 1e-4, "{line:?}");
        assert!(line["h"].is_empty() || figure(&line, "h").abs() < 3.0);
    }
}

#[tokio::test]
async fn classes_file_has_a_line_for_each_class_and_practical() {
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    let classes = lines(&mut head, "classes.csv").await;
    assert_eq!(classes.len(), 12);
    assert!(
        classes
            .iter()
            .all(|line| line["handed_in"] == line["groups"])
    );
}

#[tokio::test]
async fn formula_in_a_kits_name_is_made_text() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let (_, code) = head.make_class_set("ripple-tank").await;
    let group = Group {
        kit: "=1+1",
        ..Group::CAREFUL
    };
    group.sends("hand_in", &app, &code, "A").await;
    let sheets = lines(&mut head, "sheets.csv").await;
    assert_eq!(sheets[0]["kit"], "'=1+1");
}

#[tokio::test]
async fn teachers_file_is_for_the_head_of_department_alone() {
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    let teachers = lines(&mut head, "teachers.csv").await;
    assert!(teachers.iter().any(|line| line["teacher"] == "Mr Tarn"));
    let mut colleague = colleague(&app, &mut head).await;
    for file in ["teachers.csv", "sheets.csv?teacher=2"] {
        let refused = colleague.get(&format!("/year/{file}")).await.expect(403);
        refused.says_nothing_of("Mr Tarn");
    }
    for file in [
        "kits.csv",
        "kit-lessons.csv",
        "slips.csv",
        "classes.csv",
        "sheets.csv",
    ] {
        let page = colleague.get(&format!("/year/{file}")).await.expect(200);
        page.says_nothing_of("Mr Tarn");
    }
}

/// The names of the tabs of a workbook, which is a ZIP file.
fn tabs(workbook: &[u8]) -> String {
    let file = std::io::Cursor::new(workbook);
    let mut parts = zip::ZipArchive::new(file).unwrap();
    let mut part = parts.by_name("xl/workbook.xml").unwrap();
    let mut text = String::new();
    std::io::Read::read_to_string(&mut part, &mut text).unwrap();
    text
}

#[tokio::test]
async fn workbook_has_every_table_that_its_reader_may_see() {
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    let reply = head.get("/year/workbook.xlsx").await.expect(200);
    let found = tabs(&reply.bytes);
    for tab in [
        "Kits",
        "Kits by lesson",
        "Slips",
        "Classes",
        "Teachers",
        "Sheets",
    ] {
        assert!(
            found.contains(&format!("name=\"{tab}\"")),
            "{tab} in {found}"
        );
    }
    let mut colleague = colleague(&app, &mut head).await;
    let reply = colleague.get("/year/workbook.xlsx").await.expect(200);
    assert!(!tabs(&reply.bytes).contains("Teachers"));
}

#[tokio::test]
async fn file_that_is_none_is_404() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    head.get("/year/pupils.csv").await.expect(404);
    head.get("/year/kits.csv?year=soon").await.expect(404);
    let reply = app.browser().get("/year/kits.csv").await.expect(303);
    assert_eq!(reply.location(), "/staff/sign-in");
}
