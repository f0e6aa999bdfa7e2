//! What a file's lines may look like.

use server::files::readings::Readings;

use super::assessed;

const HEAD: &str = "class,group,method,kit,row,dial,scale_image,scale_image_unit,scale_true,scale_true_unit,last_crest,span,span_unit,left_out\n";

fn one_sheet(lines: &str) -> server::files::SheetReadings {
    let file = format!("{HEAD}{lines}");
    let mut readings = Readings::open(file.as_bytes()).expect("a header");
    let mut class = readings.next_class().expect("good lines").expect("a class");
    let next = readings.next_class().expect("the end");
    assert!(next.is_none(), "one class");
    assert_eq!(class.sheets.len(), 1, "one sheet");
    class.sheets.remove(0)
}

#[test]
fn values_of_a_sheet_may_stand_once_or_be_repeated() {
    let once = one_sheet(
        "7,A,ripple-tank,T,1,10,17.5,cm,10,cm,10,38,cm,\n7,A,ripple-tank,,2,20,,,,,10,20,cm,\n",
    );
    let repeated = one_sheet(
        "7,A,ripple-tank,T,1,10,17.5,cm,10,cm,10,38,cm,\n7,A,ripple-tank,T,2,20,17.5, cm ,10,cm,10,20,cm,\n",
    );
    let last = one_sheet(
        "7,A,ripple-tank,,1,10,,,,,10,38,cm,\n7,A,ripple-tank,T,2,20,17.5,cm,10,cm,10,20,cm,\n",
    );
    assert_eq!(once.entry.sheet, repeated.entry.sheet);
    assert_eq!(once.entry.sheet, last.entry.sheet);
    assert_eq!(
        (once.entry.kit.as_str(), last.entry.kit.as_str()),
        ("T", "T")
    );
}

#[test]
fn groups_of_a_class_may_be_mixed_and_rows_keep_their_labels() {
    let file = format!(
        "{HEAD}7,A,ripple-tank,,1,10,,,,,10,38,cm,\n7,B,ripple-tank,,1,10,,,,,10,38,cm,\n7,A,ripple-tank,, 3a,20,,,,,10,20,cm,YES\n"
    );
    let mut readings = Readings::open(file.as_bytes()).expect("a header");
    let class = readings.next_class().expect("good").expect("a class");
    let a = &class.sheets[0];
    let labels: Vec<_> = a
        .entry
        .sheet
        .rows
        .iter()
        .map(|row| row.label.as_str())
        .collect();
    assert_eq!(labels, ["1", " 3a"]);
    assert_eq!(
        (
            a.entry.sheet.rows[0].left_out,
            a.entry.sheet.rows[1].left_out
        ),
        (false, true)
    );
    assert_eq!(class.sheets[1].group, "B");
}

#[test]
fn a_line_with_nothing_but_its_number_is_no_row() {
    let sheet = one_sheet(
        "7,A,ripple-tank,,1,10,,,,,10,38,cm,\n7,A,ripple-tank,,2,,17.5,cm,10,cm,,,cm,\n7,A,ripple-tank,,3,,,,,,,,,yes\n",
    );
    assert_eq!(sheet.entry.sheet.rows.len(), 1);
    assert_eq!(sheet.entry.sheet.whole.len(), 2);
}

#[test]
fn a_line_with_working_alone_is_a_row_but_none_with_readings() {
    let file = "group,method,row,dial,length,length_unit,loops,speed,speed_unit\n\
        A,string-loops,1,20,1.2,m,1,48,m/s\nA,string-loops,2,,,,,48,m/s\n";
    let results = assessed(file.as_bytes()).expect("a good file");
    assert!(
        results.groups.contains(",A,string-loops,,1,48.0000,"),
        "{}",
        results.groups
    );
}

#[test]
fn labels_may_hold_separators_quotes_and_line_breaks() {
    let file = "group,method,row,dial,length,length_unit,loops\n\
        \"Ann, \"\"B\"\"\nand C\",string-loops,1,20,1.2,m,1\n";
    let results = assessed(file.as_bytes()).expect("a good file");
    assert!(
        results
            .groups
            .contains(",\"Ann, \"\"B\"\"\nand C\",string-loops"),
        "{}",
        results.groups
    );
}

#[test]
fn a_spare_column_without_name_or_content_is_passed_over() {
    let file = "group,method,row,dial,length,length_unit,loops,,\nA,string-loops,1,20,1.2,m,1,,\n";
    assert_eq!(
        assessed(file.as_bytes())
            .expect("a good file")
            .report
            .sheets,
        1
    );
}

#[test]
fn the_report_says_what_was_assumed() {
    let file = "group;method;row;dial;first_crest;last_crest;span;span_unit\n\
        A;ripple-tank;1;10;;10;21,5;cm\nA;ripple-tank;2;20,5;0;10;12,25;cm\n";
    let report = assessed(file.as_bytes()).expect("a good file").report;
    insta::assert_snapshot!(report.assumed.sentences().join("\n"), @r"
    The fields are separated by semicolons.
    A comma in a figure is its decimal point (3, first in line 2, column span).
    A blank first number called is nought (1, first in line 2, column first_crest).
    Water without a recorded depth is as deep as in most tanks (1, first in line 2, column depth_mm).
    ");
}
