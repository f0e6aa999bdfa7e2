//! A file made by hand, with slips that are known.
//!
//! The speeds, intervals, expected speeds and modified z in
//! `two_classes.groups.csv` were worked out by a script that knows nothing of
//! this program: sums of squares written out, Student's t from tables
//! (12.7062, 4.30265, 3.18245, 2.77645), the ripple equation solved by halving
//! an interval, √(T/μ), medians by sorting. The expected figures in
//! `two_classes.flags.csv` by hand: 3.89 → 38.9 ÷ 10 ÷ 1.75 = 2.22; 1.07 →
//! 20.6 ÷ 10 ÷ 1.75 = 1.18; the mean of 49.2, 49.8 and 49.4 is 49.47;
//! 2 × 1.20 m = 2.40 m; 20 Hz × 2.40 m = 48 m/s; the mean of 48.0, 48.2, 48.0,
//! 48.2 and 41.2 is 46.7, and 48.1 without the last.

use super::{THEIR_FLAGS, THEIR_GROUPS, assessed, plainly, without};

#[test]
fn known_slips_and_speeds_are_written_as_the_format_says() {
    let results = plainly();
    assert_eq!(without("inferred", &results.flags), THEIR_FLAGS);
    assert_eq!(results.groups, THEIR_GROUPS);
    let report = &results.report;
    assert_eq!((report.classes, report.sheets), (2, 9));
    assert_eq!(report.flags, results.flags.lines().count() - 1);
    assert!(
        report.assumed.sentences().is_empty(),
        "{:?}",
        report.assumed
    );
}

#[test]
fn a_file_with_a_header_alone_gives_headers_alone() {
    let results = assessed(b"row,group,method\n\n\n").expect("nothing in it");
    assert_eq!(
        results.flags,
        "class,group,method,row,step,slip,kind,basis,probability,given,expected,rival\n"
    );
    assert_eq!(results.groups.lines().count(), 1);
}

#[test]
fn classes_come_out_in_the_order_of_the_file_whatever_the_threads() {
    let mut file = "class,group,method,row,dial,length,length_unit,loops\n".to_owned();
    for class in 0..400 {
        for group in ["A", "B", "C"] {
            let line = format!("c{class},{group},string-loops,1,{},1.2,m,1\n", 20 + class);
            file.push_str(&line);
        }
    }
    let results = assessed(file.as_bytes()).expect("a good file");
    let order: Vec<_> = super::cells(&results.groups)[1..]
        .iter()
        .map(|line| format!("{}{}", line[0], line[1]))
        .collect();
    let expected: Vec<_> = (0..400)
        .flat_map(|class| ["A", "B", "C"].map(|group| format!("c{class}{group}")))
        .collect();
    assert_eq!(order, expected);
    assert_eq!(results.report.sheets, 1200);
}

#[test]
fn text_that_would_be_a_formula_is_made_text_and_numbers_survive() {
    let file = "class,group,method,kit,row,dial,length,length_unit,loops,gradient,gradient_unit\n\
        @7,-3,string-loops,=K,-1,20,1.2,m,1,-48,m/s\n\
        @7,-3,string-loops,=K,+x,40,1.2,m,2,,\n";
    let results = assessed(file.as_bytes()).expect("a good file");
    let line = results.groups.lines().nth(1).expect("one sheet");
    assert!(line.starts_with("'@7,-3,string-loops,'=K,2,"), "{line}");
    assert!(line.contains(",-48,m/s,"), "{line}");
}
