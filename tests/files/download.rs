//! Downloads of a class set.

use calamine::{Data, Reader as _};

use super::assessed;
use crate::support::{Group, Lesson, Reply};

/// A class set in which A was careful, B forgot the enlargement and typed its
/// kit as no spreadsheet should run it, C only saved, and D did nothing.
async fn class_set() -> Lesson {
    let at = Lesson::handed_in(&Group::CAREFUL).await;
    at.hands_in(&Group::FORGETFUL.kit("=cmd()"), "B").await;
    at.saves(&Group::CAREFUL, "C").await;
    at
}

async fn download(at: &mut Lesson, name: &str) -> Reply {
    at.page(&format!("/files/{name}")).await
}

#[tokio::test]
async fn downloads_are_saved_under_a_plain_name_and_never_shown() {
    let mut at = class_set().await;
    for (name, kind) in [
        ("readings.csv", "text/csv; charset=utf-8"),
        ("flags.csv", "text/csv; charset=utf-8"),
        ("groups.csv", "text/csv; charset=utf-8"),
        (
            "workbook.xlsx",
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        ),
    ] {
        let file = download(&mut at, name).await;
        assert_eq!(file.header("content-type"), kind);
        let saved_as = format!("attachment; filename=\"class-set-1-2026-11-24-{name}\"");
        assert_eq!(file.header("content-disposition"), saved_as);
        assert_eq!(file.header("x-content-type-options"), "nosniff");
        assert_eq!(file.header("cache-control"), "no-store");
    }
    let page = at.page("/files").await;
    for name in ["readings.csv", "flags.csv", "groups.csv", "workbook.xlsx"] {
        assert_eq!(
            page.count(&format!("{}/files/{name}\"", at.set)),
            1,
            "{name}"
        );
    }
}

#[tokio::test]
async fn files_that_are_none_are_404() {
    let mut at = class_set().await;
    let unknown = at.url("/files/data.db");
    at.teacher.get(&unknown).await.expect(404);
}

#[tokio::test]
async fn readings_are_to_the_letter_what_groups_stored_last() {
    let mut at = class_set().await;
    let file = download(&mut at, "readings.csv").await;
    let groups: Vec<_> = file.text.lines().skip(1).map(|l| &l[..20]).collect();
    // Five rows a group, saved or handed in; D has no line.
    assert_eq!(groups.len(), 15, "{}", file.text);
    assert!(groups[0].starts_with("10B/Ph2,A,"), "{}", groups[0]);
    assert!(groups[14].starts_with("10B/Ph2,C,"), "{}", groups[14]);
    file.says("10B/Ph2,B,ripple-tank,'=cmd(),,1,14.0,cm,8.0,cm,");
}

#[tokio::test]
async fn flags_and_groups_are_what_the_command_makes_of_the_readings() {
    let mut at = class_set().await;
    let readings = download(&mut at, "readings.csv").await;
    let results = assessed(readings.text.as_bytes()).expect("our own file");
    let flags = download(&mut at, "flags.csv").await;
    let groups = download(&mut at, "groups.csv").await;
    assert_eq!(flags.text, results.flags);
    assert_eq!(groups.text, results.groups);
    assert_eq!(groups.text.lines().count(), 4, "{}", groups.text);
    flags.says("10B/Ph2,B,ripple-tank,,wavelength,scale-left-out,slip,shown,1,");
    groups.says("10B/Ph2,B,ripple-tank,'=cmd(),5,");
}

#[tokio::test]
async fn class_set_without_work_gives_files_without_lines() {
    let mut at = Lesson::of("string-loops").await;
    for name in ["readings.csv", "flags.csv", "groups.csv"] {
        let file = download(&mut at, name).await;
        assert_eq!(file.text.lines().count(), 1, "{name}: {}", file.text);
    }
    download(&mut at, "workbook.xlsx").await;
}

#[tokio::test]
async fn workbook_has_numbers_as_numbers_and_everything_else_as_text() {
    let mut at = class_set().await;
    let file = download(&mut at, "workbook.xlsx").await;
    let mut book = file.workbook();
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
