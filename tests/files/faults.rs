//! Every kind of error, with its line and column.

use server::files::assess::AssessError;
use server::files::fault::{Fault, ReadError};

use super::assessed;

fn fault(file: &[u8]) -> Fault {
    match assessed(file).err() {
        Some(AssessError::Read(ReadError::Fault(fault))) => Some(fault),
        _ => None,
    }
    .expect("readings that cannot be")
}

/// A good file of one sheet of each method; lines 2 to 5.
const GOOD: &str = "class,group,method,kit,row,dial,dial_times,passes_first,passes_last,seconds,first_crest,last_crest,span,span_unit,scale_image,scale_image_unit,scale_true,scale_true_unit,length,length_unit,length_loops,speed,speed_unit,lengths,left_out
7B,A,ripple-tank,T1,1,1.0,10,,,,0,10,38.9,cm,17.5,cm,10.0,cm,,,,0.22,m/s,,
7B,A,ripple-tank,T1,2,,,0,20,10.1,0,11,20.8,cm,17.5,cm,10.0,cm,,,,0.21,m/s,,no
7B,A,string-loops,S1,1,20.5,1,,,,,,,,,,,,1.20,m,1,49.2,m/s,,
7B,A,string-loops,S1,2,41.5,1,,,,,,,,,,,,1.20,m,2,49.8,m/s,,yes
";

/// The good file with one cell changed.
fn changed(line: usize, column: &str, text: &str) -> String {
    let mut cells = super::cells(GOOD);
    let at = cells[0].iter().position(|name| *name == column);
    cells[line - 1][at.expect("a column of the file")] = text;
    super::joined(&cells, ",")
}

#[test]
fn the_good_file_is_good() {
    assert_eq!(assessed(GOOD.as_bytes()).expect("good").report.sheets, 2);
}

#[test]
fn a_cell_that_cannot_be_is_an_error_that_names_line_and_column() {
    for (line, column, text, says) in [
        (3, "group", "", "blank"),
        (3, "row", " ", "blank"),
        (4, "method", "", "blank"),
        (4, "method", "slinky", "not a method"),
        (4, "method", "rod-ring", "cannot be read yet"),
        (4, "method", "timed-pulse", "cannot be read yet"),
        (3, "row", "1", "in line 2 already"),
        (3, "kit", "T2", "“T1” in line 2"),
        (3, "scale_image", "17.6", "“17.5” in line 2"),
        (3, "scale_image", "17.50", "“17.5” in line 2"),
        (3, "scale_true_unit", "mm", "“cm” in line 2"),
        (3, "left_out", "maybe", "yes, no or blank"),
        (2, "lengths", "3", "cannot stand here"),
        (2, "span_unit", "furlong", "not a unit"),
        (2, "span_unit", "m/s", "not a unit"),
        (2, "speed_unit", "cm", "not a unit"),
        (4, "span_unit", "ft", "not a unit"),
        (2, "span", "38.9.1", "two decimal points"),
        (2, "span", "long", "not a number"),
        (2, "span", "-3", "negative"),
        (2, "span", "0", "cannot be 0"),
        (2, "span", "38.9 s", "cannot be in s"),
        (3, "last_crest", "0", "cannot be 0"),
        (3, "last_crest", "10.5", "whole number"),
        (3, "passes_last", "0", "cannot be 0"),
        (2, "length", "1.2", "no box"),
        (4, "span", "1.2", "no box"),
        (5, "dial", "inf", "not a number"),
        (5, "dial", "1e99", "too large or too small"),
    ] {
        let fault = fault(changed(line, column, text).as_bytes());
        let place = (fault.line, fault.column.as_deref());
        let wanted = (u64::try_from(line).expect("few"), Some(column));
        assert_eq!(place, wanted, "{column} {text:?}: {fault}");
        assert!(fault.reason.contains(says), "{column} {text:?}: {fault}");
    }
}

#[test]
fn a_value_of_a_sheet_that_cannot_be_is_told_in_its_line() {
    // Blank in the first line, so it stands in the second.
    let file = GOOD.replacen("17.5,cm,10.0,cm", ",,10.0,cm", 1).replacen(
        "17.5,cm,10.0,cm",
        "17.5 kg,cm,10.0,cm",
        1,
    );
    let fault = fault(file.as_bytes());
    let place = (fault.line, fault.column.as_deref());
    assert_eq!(place, (3, Some("scale_image")));
}

#[test]
fn a_count_that_goes_down_is_told_at_its_last_number() {
    for (first, last, number) in [
        ("first_crest", "last_crest", "11"),
        ("passes_first", "passes_last", "30"),
    ] {
        let fault = fault(changed(3, first, number).as_bytes());
        let place = (fault.line, fault.column.as_deref());
        assert_eq!(place, (3, Some(last)), "{fault}");
        assert!(fault.reason.contains("must be larger"), "{fault}");
    }
}

#[test]
fn a_fault_is_one_line_of_text() {
    let fault = fault(changed(2, "span_unit", "fur\u{7}long").as_bytes());
    assert_eq!(
        fault.to_string(),
        "line 2, column span_unit: “fur long” is not a unit for this column. Use mm, cm, m."
    );
}

#[test]
fn a_class_that_comes_back_is_an_error() {
    let mut cells = super::cells(GOOD);
    cells[3][0] = "7C";
    let fault = fault(super::joined(&cells, ",").as_bytes());
    assert_eq!((fault.line, fault.column.as_deref()), (5, Some("class")));
    assert!(fault.reason.contains("must stand together"), "{fault}");
}

#[test]
fn a_header_that_cannot_be_is_an_error_that_names_the_column() {
    for (header, column, says) in [
        (
            "group,method,row,colour",
            "colour",
            "no column of this name",
        ),
        ("group,method,row,dial_unit", "dial_unit", "no column"),
        ("group,method,row,Span", "Span", "no column of this name"),
        ("group,method,row,row", "row", "twice"),
        ("group,method", "row", "must be there"),
        ("row,method", "group", "must be there"),
        ("row,group", "method", "must be there"),
    ] {
        let fault = fault(format!("{header}\n").as_bytes());
        assert_eq!(
            (fault.line, fault.column.as_deref()),
            (1, Some(column)),
            "{header}"
        );
        assert!(fault.reason.contains(says), "{header}: {fault}");
    }
}

#[test]
fn a_file_that_is_no_table_is_an_error_in_its_first_line() {
    for (file, says) in [
        (&b""[..], "empty"),
        (b"\n\n", "empty"),
        (b"\xEF\xBB\xBF", "empty"),
        (b"row\rgroup\rmethod", "carriage returns"),
        (b"group,method,row,\xff\n", "UTF-8"),
        (b"\xff\xfeg\0r\0o\0u\0p\0\n", "UTF-8"),
    ] {
        let fault = fault(file);
        assert_eq!(fault.line, 1, "{fault}");
        assert!(fault.reason.contains(says), "{fault}");
    }
}

#[test]
fn bytes_that_are_no_text_are_an_error_in_their_cell() {
    let mut file = GOOD.as_bytes().to_vec();
    let at = GOOD.find("T1,2").expect("the third line");
    file[at] = 0xff;
    let fault = fault(&file);
    assert_eq!((fault.line, fault.column.as_deref()), (3, Some("kit")));
}

#[test]
fn a_comma_too_many_is_an_error_in_its_line() {
    let fault = fault(GOOD.replacen("20.8", "20,8", 1).as_bytes());
    assert_eq!((fault.line, fault.column), (3, None));
    assert!(
        fault
            .reason
            .contains("26 fields here where the header line has 25"),
        "{}",
        fault.reason
    );
}

#[test]
fn lines_are_counted_as_an_editor_counts_them() {
    // Blank lines, lines with separators alone and a label over two lines
    // come before the error; line ends of either kind.
    let blanks = format!("\n\n{}\n", ",".repeat(24));
    for end in ["\n", "\r\n"] {
        let file = changed(5, "dial", "x")
            .replacen("7B,A,string-loops,S1,1", "7B,\"A\nb\",string-loops,S1,1", 1)
            .replacen("7B,A,string-loops,S1,2", "7B,\"A\nb\",string-loops,S1,2", 1)
            .replacen('\n', &format!("\n{blanks}"), 1)
            .replace('\n', end);
        let fault = fault(file.as_bytes());
        assert_eq!((fault.line, fault.column.as_deref()), (9, Some("dial")));
    }
}

#[test]
fn the_first_error_of_a_class_is_the_one_that_is_told() {
    let file = changed(5, "dial", "x").replacen("38.9", "y", 1);
    assert_eq!(fault(file.as_bytes()).line, 2);
    // A figure far above a line that breaks the table.
    let mut long = GOOD.replacen("38.9", "y", 1);
    long.push_str("7C,A,slinky\n");
    assert_eq!(fault(long.as_bytes()).line, 2);
}

#[test]
fn a_quotation_mark_left_open_is_an_error_where_it_opens() {
    let open = GOOD.replacen("38.9", "\"38.9", 1);
    assert_eq!(fault(open.as_bytes()).line, 2);
    let mut long = open.into_bytes();
    long.extend(std::iter::repeat_n(b'1', 3 << 20));
    let fault = fault(&long);
    assert_eq!(fault.line, 2);
    assert!(fault.reason.contains("quotation mark"), "{fault}");
}
