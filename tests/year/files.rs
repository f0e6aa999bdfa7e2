//! The year's tables as files.

use std::collections::HashMap;

use calamine::{Data, Reader as _};

use super::{Department, SMALL, head, head_of, store};
use crate::support::{Browser, Group, Lesson, teacher};

/// A CSV file as lines of named cells.
async fn lines(browser: &mut Browser, file: &str) -> Vec<HashMap<String, String>> {
    let reply = browser.opens(&format!("/year/{file}")).await;
    assert_eq!(
        reply.header("content-type"),
        "text/csv; charset=utf-8",
        "{file}"
    );
    let name = file.split('?').next().unwrap();
    let saved_as = format!("attachment; filename=\"year-2026-{name}\"");
    assert_eq!(reply.header("content-disposition"), saved_as, "{file}");
    reply.lines()
}

fn figure(line: &HashMap<String, String>, column: &str) -> f64 {
    line[column]
        .parse()
        .unwrap_or_else(|_| panic!("{column} of {line:?}"))
}

#[tokio::test]
async fn kits_file_says_what_the_page_says() {
    let mut head = head().await;
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
    let page = head.opens("/year/kits").await;
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
    let mut head = head_of(&SMALL).await;
    store(&head.app, &Department::SOUND, 2025).await;
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
    let mut head = head().await;
    assert_eq!(lines(&mut head, "sheets.csv").await.len(), 144);
    let at_tank = lines(&mut head, "sheets.csv?kit=1").await;
    assert_eq!(at_tank.len(), 24);
    for line in at_tank {
        assert_eq!(line["kit"], "Tank 1");
        let ratio = figure(&line, "speed") / figure(&line, "expected_speed");
        assert!((ratio - figure(&line, "ratio")).abs() < 1e-4, "{line:?}");
    }
}

#[tokio::test]
async fn classes_file_has_a_line_for_each_class_and_practical() {
    let mut head = head().await;
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
    let mut at = Lesson::new().await;
    let group = Group::CAREFUL.kit("=1+1");
    at.hands_in(&group, "A").await;
    let sheets = lines(&mut at.teacher, "sheets.csv").await;
    assert_eq!(sheets[0]["kit"], "'=1+1");
}

#[tokio::test]
async fn teachers_file_is_for_the_head_of_department_alone() {
    let mut head = head().await;
    let teachers = lines(&mut head, "teachers.csv").await;
    assert!(teachers.iter().any(|line| line["teacher"] == "Mr Tarn"));
    let mut colleague = head.colleague("Mx Gill").await;
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
        let page = colleague.opens(&format!("/year/{file}")).await;
        page.says_nothing_of("Mr Tarn");
    }
}

/// Columns that are text though they may look like numbers, and those that
/// never do.
const TEXT: [&str; 15] = [
    "kit",
    "kind",
    "standing",
    "looks_like",
    "date",
    "class",
    "teacher",
    "group",
    "method",
    "slip",
    "where",
    "split",
    "name",
    "slips_in_working",
    "confirmed",
];

/// What a CSV file has in a cell, as a workbook has it: numbers as numbers.
fn in_workbook(column: &str, text: &str) -> Data {
    match text.parse() {
        _ if text.is_empty() => Data::Empty,
        Ok(number) if !TEXT.contains(&column) => Data::Float(number),
        _ => Data::String(text.to_owned()),
    }
}

#[tokio::test]
async fn workbook_says_cell_by_cell_what_the_csv_files_say() {
    let mut head = head().await;
    let reply = head.opens("/year/workbook.xlsx").await;
    let mut book = reply.workbook();
    let tabs = [
        ("Kits", "kits.csv"),
        ("Kits by lesson", "kit-lessons.csv"),
        ("Slips", "slips.csv"),
        ("Classes", "classes.csv"),
        ("Teachers", "teachers.csv"),
        ("Sheets", "sheets.csv"),
    ];
    assert_eq!(book.sheet_names(), tabs.map(|(tab, _)| tab));
    for (tab, file) in tabs {
        let csv = head.opens(&format!("/year/{file}")).await;
        let mut lines = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(csv.text.as_bytes());
        let lines: Vec<csv::StringRecord> = lines.records().map(Result::unwrap).collect();
        let sheet = book.worksheet_range(tab).expect(tab);
        assert_eq!(sheet.height(), lines.len(), "{tab}");
        for (row, line) in sheet.rows().zip(&lines) {
            let cells = lines[0].iter().zip(line);
            let wanted: Vec<Data> = cells
                .map(|(column, text)| in_workbook(column, text))
                .collect();
            assert_eq!(row, wanted, "{tab}: {line:?}");
        }
    }
}

#[tokio::test]
async fn workbook_has_numbers_as_numbers_and_what_was_typed_as_text() {
    let mut at = Lesson::handed_in(&Group::CAREFUL.kit("=1+1")).await;
    let reply = at.teacher.opens("/year/workbook.xlsx").await;
    let mut book = reply.workbook();
    for tab in book.sheet_names() {
        let formulas = book.worksheet_formula(&tab).expect("a tab");
        assert_eq!(formulas.used_cells().count(), 0, "{tab}");
    }
    let sheets = book.worksheet_range("Sheets").expect("a tab");
    let rows: Vec<_> = sheets.rows().collect();
    let cell = |column: &str| {
        let at = rows[0].iter().position(|name| name == column);
        rows[1][at.expect(column)].clone()
    };
    assert_eq!(cell("kit"), Data::String("=1+1".to_owned()));
    assert_eq!(cell("group"), Data::String("A".to_owned()));
    assert!(matches!(cell("ratio"), Data::Float(ratio) if (ratio - 1.0).abs() < 0.2));
}

#[tokio::test]
async fn workbook_of_a_colleague_has_no_teachers() {
    let mut head = head().await;
    let mut colleague = head.colleague("Mx Gill").await;
    let reply = colleague.opens("/year/workbook.xlsx").await;
    let tabs = reply.workbook().sheet_names();
    assert!(tabs.contains(&"Sheets".to_owned()), "{tabs:?}");
    assert!(!tabs.contains(&"Teachers".to_owned()), "{tabs:?}");
}

#[tokio::test]
async fn file_that_is_none_is_404() {
    let mut head = teacher().await;
    head.get("/year/pupils.csv").await.expect(404);
    head.get("/year/workbook.csv").await.expect(404);
    head.get("/year/kits.csv?year=soon").await.expect(404);
    let reply = head.app.get("/year/kits.csv").await.expect(303);
    assert_eq!(reply.location(), "/staff/sign-in");
}
