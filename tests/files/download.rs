//! Downloads of a class set.

use calamine::{Data, Reader as _, Xlsx};

use super::assessed;
use crate::support::{Browser, Group, Reply, TestApp};

/// A class set in which A was careful, B forgot the enlargement and typed its
/// kit as no spreadsheet should run it, C only saved, and D did nothing.
async fn class_set(app: &TestApp) -> (Browser<'_>, String) {
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    Group::CAREFUL.sends("hand_in", app, &code, "A").await;
    let b = Group::FORGETFUL.kit("=cmd()");
    b.sends("hand_in", app, &code, "B").await;
    Group::CAREFUL.sends("save", app, &code, "C").await;
    (teacher, set)
}

async fn download(teacher: &mut Browser<'_>, set: &str, name: &str) -> Reply {
    teacher.opens(&format!("{set}/files/{name}")).await
}

#[tokio::test]
async fn downloads_are_saved_under_a_plain_name_and_never_shown() {
    let app = TestApp::new().await;
    let (mut teacher, set) = class_set(&app).await;
    for (name, kind) in [
        ("readings.csv", "text/csv; charset=utf-8"),
        ("flags.csv", "text/csv; charset=utf-8"),
        ("groups.csv", "text/csv; charset=utf-8"),
        (
            "workbook.xlsx",
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        ),
    ] {
        let file = download(&mut teacher, &set, name).await;
        assert_eq!(file.header("content-type"), kind);
        let saved_as = format!("attachment; filename=\"class-set-1-2026-11-24-{name}\"");
        assert_eq!(file.header("content-disposition"), saved_as);
        assert_eq!(file.header("x-content-type-options"), "nosniff");
        assert_eq!(file.header("cache-control"), "no-store");
    }
    let page = teacher.opens(&format!("{set}/files")).await;
    for name in ["readings.csv", "flags.csv", "groups.csv", "workbook.xlsx"] {
        assert_eq!(page.count(&format!("{set}/files/{name}\"")), 1, "{name}");
    }
}

#[tokio::test]
async fn files_that_are_none_are_404() {
    let app = TestApp::new().await;
    let (mut teacher, set) = class_set(&app).await;
    teacher.get("/class-sets/9/files").await.expect(404);
    let missing = "/class-sets/9/files/readings.csv";
    teacher.get(missing).await.expect(404);
    let unknown = format!("{set}/files/data.db");
    teacher.get(&unknown).await.expect(404);
}

#[tokio::test]
async fn readings_are_to_the_letter_what_groups_stored_last() {
    let app = TestApp::new().await;
    let (mut teacher, set) = class_set(&app).await;
    let file = download(&mut teacher, &set, "readings.csv").await;
    let groups: Vec<_> = file.text.lines().skip(1).map(|l| &l[..20]).collect();
    // Five rows a group, saved or handed in; D has no line.
    assert_eq!(groups.len(), 15, "{}", file.text);
    assert!(groups[0].starts_with("10B/Ph2,A,"), "{}", groups[0]);
    assert!(groups[14].starts_with("10B/Ph2,C,"), "{}", groups[14]);
    file.says("10B/Ph2,B,ripple-tank,'=cmd(),,1,14.0,cm,8.0,cm,");
}

#[tokio::test]
async fn flags_and_groups_are_what_the_command_makes_of_the_readings() {
    let app = TestApp::new().await;
    let (mut teacher, set) = class_set(&app).await;
    let readings = download(&mut teacher, &set, "readings.csv").await;
    let results = assessed(readings.text.as_bytes()).expect("our own file");
    let flags = download(&mut teacher, &set, "flags.csv").await;
    let groups = download(&mut teacher, &set, "groups.csv").await;
    assert_eq!(flags.text, results.flags);
    assert_eq!(groups.text, results.groups);
    assert_eq!(groups.text.lines().count(), 4, "{}", groups.text);
    flags.says("10B/Ph2,B,ripple-tank,,wavelength,scale-left-out,slip,shown,1,");
    groups.says("10B/Ph2,B,ripple-tank,'=cmd(),5,");
}

#[tokio::test]
async fn class_set_without_work_gives_files_without_lines() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    let (set, _) = teacher.make_class_set("string-loops").await;
    for name in ["readings.csv", "flags.csv", "groups.csv"] {
        let file = download(&mut teacher, &set, name).await;
        assert_eq!(file.text.lines().count(), 1, "{name}: {}", file.text);
    }
    download(&mut teacher, &set, "workbook.xlsx").await;
}

#[tokio::test]
async fn workbook_has_numbers_as_numbers_and_everything_else_as_text() {
    let app = TestApp::new().await;
    let (mut teacher, set) = class_set(&app).await;
    let file = download(&mut teacher, &set, "workbook.xlsx").await;
    let mut book = Xlsx::new(std::io::Cursor::new(file.bytes)).expect("a workbook");
    assert_eq!(book.sheet_names(), ["Readings", "Groups", "Flags", "Marks"]);
    for name in book.sheet_names() {
        let formulas = book.worksheet_formula(&name).expect("a sheet");
        assert_eq!(formulas.used_cells().count(), 0, "{name}");
    }
    let sheet = book.worksheet_range("Readings").expect("a sheet");
    let rows: Vec<_> = sheet.rows().collect();
    let cell = |row: usize, column: &str| {
        let names = rows[0].iter().map(ToString::to_string);
        let at = names.into_iter().position(|name| name == column);
        rows[row][at.expect(column)].clone()
    };
    assert_eq!(rows.len(), 16);
    assert_eq!(cell(1, "group"), Data::String("A".to_owned()));
    assert_eq!(cell(6, "kit"), Data::String("=cmd()".to_owned()));
    assert_eq!(cell(1, "span"), Data::Float(22.4));
    assert_eq!(cell(1, "span_unit"), Data::String("cm".to_owned()));
    assert_eq!(cell(1, "dial_times"), Data::Empty);
}
