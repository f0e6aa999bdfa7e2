//! A file whose class column is blank: far more sheets than a class has.

use std::fmt::Write as _;

use server::report::judge::PART;

use super::{assessed, cells};

const HEAD: &str = "group,method,row,dial,first_crest,last_crest,span,span_unit,scale_image,scale_image_unit,scale_true,scale_true_unit,depth_mm\n";

/// Six rows of ten waves, at 10 to 40 Hz in clean water 5 mm deep; spans in
/// tenths of a millimetre, each group's own.
fn file(groups: usize, whose: impl Fn(usize) -> usize) -> String {
    let mut file = HEAD.to_owned();
    let rows = [
        (10, 3890),
        (15, 2740),
        (20, 2080),
        (25, 1740),
        (30, 1510),
        (40, 1210),
    ];
    for group in 0..groups {
        for (row, (dial, span)) in rows.into_iter().enumerate() {
            let error = 7 * whose(group) % [23, 29, 31, 37, 41, 43][row];
            writeln!(
                file,
                "G{group},ripple-tank,{},{dial},0,10,{}.{},mm,175,mm,100,mm,5",
                row + 1,
                (span + error) / 10,
                (span + error) % 10
            )
            .expect("a text takes all");
        }
    }
    file
}

/// The groups that are asked about readings that agree.
fn asked(flags: &str) -> Vec<&str> {
    let lines = cells(flags).into_iter();
    let asked = lines.filter(|line| line[5] == "copied-readings");
    asked.map(|line| line[1]).collect()
}

#[test]
fn more_sheets_than_a_class_has_are_compared_in_parts_and_it_is_said() {
    let copied = |group| if group == PART { PART + 3 } else { group };
    let judged = assessed(file(2 * PART + 1, copied).as_bytes()).expect("a good file");
    assert_eq!(judged.report.sheets, 2 * PART + 1);
    let said = judged.report.assumed.sentences().join(" ");
    assert!(said.contains("part by part (1, first in line 2"), "{said}");
    assert_eq!(
        asked(&judged.flags),
        [format!("G{PART}"), format!("G{}", PART + 3)]
    );
}

#[test]
fn a_class_of_a_usual_size_is_compared_as_one() {
    let judged = assessed(file(PART, |group| group).as_bytes()).expect("a good file");
    assert_eq!(judged.report.assumed.in_parts.count, 0);
}
