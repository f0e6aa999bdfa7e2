//! The marks of a class set as a file.

use crate::support::{Browser, Group, teacher};

/// Awards marks to group A as the form on its page would.
async fn award(teacher: &mut Browser, set: &str, key: u32, marks: &str, reason: &str) {
    let sheet = format!("{set}/marking/sheets/A");
    let page = teacher.opens(&sheet).await;
    let form = page.at(&format!("#point-{key} .award"));
    let boxes = [("marks", marks), ("reason", reason)];
    teacher.fill(&form, &boxes).await.expect(303);
}

/// The line of a group and point, from the title on.
fn line(file: &str, group: &str, point: &str) -> String {
    let start = format!("10B/Ph2,{group},{point},");
    let mut lines = file.lines().filter(|line| line.starts_with(&start));
    let line = lines.next().expect(&start).to_owned();
    assert_eq!(lines.next(), None, "{start}");
    line
}

#[tokio::test]
async fn marks_have_a_line_for_each_group_and_point_and_one_for_its_total() {
    let mut teacher = teacher().await;
    let (set, code) = teacher.make_class_set_of("ripple-tank", "2").await;
    let (mut pupil, bench) = Group::FORGETFUL
        .sends("hand_in", &teacher.app, &code, "A")
        .await;
    award(&mut teacher, &set, 1, "2", "").await;
    award(&mut teacher, &set, 7, "1", "=it is divided, in their book").await;
    let path = format!("{set}/files/marks.csv");
    let file = teacher.opens(&path).await;
    assert_eq!(
        file.header("content-disposition"),
        "attachment; filename=\"class-set-1-2026-11-24-marks.csv\""
    );
    let file = file.text;
    assert_eq!(file.lines().count(), 1 + 2 * (17 + 1), "{file}");
    let by_eye = line(&file, "A", "1");
    assert!(
        by_eye.contains(",3,2,,,Ms Fell,2026-11-24 10:42,1,no,no"),
        "{by_eye}"
    );
    let applied = line(&file, "A", "7");
    let end = ",1,1,0,\"'=it is divided, in their book\",Ms Fell,2026-11-24 10:42,1,no,no";
    assert!(applied.ends_with(end), "{applied}");
    // Not marked yet: what is suggested now, and no mark.
    let speed = line(&file, "A", "10");
    assert!(speed.ends_with(",1,,1,,,,,,"), "{speed}");
    assert_eq!(line(&file, "A", ""), "10B/Ph2,A,,total,20,3,,,,,,,");
    assert_eq!(line(&file, "B", ""), "10B/Ph2,B,,total,20,,,,,,,,");

    Group::CAREFUL
        .sends_again("hand_in", &mut pupil, &bench)
        .await;
    let file = teacher.opens(&path).await.text;
    let applied = line(&file, "A", "7");
    assert!(
        applied.ends_with(",Ms Fell,2026-11-24 10:42,1,yes,no"),
        "{applied}"
    );
    assert_eq!(line(&file, "A", ""), "10B/Ph2,A,,total,20,3,,,,,,,");
}

#[tokio::test]
async fn marks_are_numbers_in_the_workbook_and_reasons_are_text() {
    use calamine::{Data, Reader as _};
    let mut teacher = teacher().await;
    let (set, code) = teacher.make_class_set_of("ripple-tank", "1").await;
    Group::FORGETFUL
        .sends("hand_in", &teacher.app, &code, "A")
        .await;
    award(&mut teacher, &set, 7, "1", "=it is in their book").await;
    let book = teacher.get(&format!("{set}/files/workbook.xlsx")).await;
    let mut book = book.workbook();
    let sheet = book.worksheet_range("Marks").expect("a sheet");
    let row: Vec<_> = sheet.rows().nth(7).expect("the seventh point").to_vec();
    assert_eq!(row[2], Data::Float(7.0));
    assert_eq!(row[5], Data::Float(1.0));
    assert_eq!(row[7], Data::String("=it is in their book".to_owned()));
}
