//! What the readings suggest, among the flags.

use std::collections::BTreeMap;

use super::{assessed, cells, plainly, without};

/// A sheet at clean water 5 mm deep: 0.222, 0.238, 0.258 and 0.277 m/s at 10, 20, 30
/// and 40 Hz, so that on a screen enlarged 1.75 times ten waves are 38.9, 20.8,
/// 15.1 and 12.1 cm. In row 3 the last number called is out by `out`.
fn tank(class: &str, group: &str, kit: &str, out: i32) -> String {
    let rows = [(10, "38.9"), (20, "20.8"), (30, "15.1"), (40, "12.1")];
    let rows = rows.iter().enumerate().map(|(at, (dial, span))| {
        let last = 10 + if at == 2 { out } else { 0 };
        format!(
            "{class},{group},ripple-tank,{kit},{},{dial},0,{last},{span},cm,17.5,cm,10.0,cm,5\n",
            at + 1
        )
    });
    rows.collect()
}

const HEAD: &str = "class,group,method,kit,row,dial,first_crest,last_crest,span,span_unit,scale_image,scale_image_unit,scale_true,scale_true_unit,depth_mm\n";

#[test]
fn a_row_out_by_a_wave_is_inferred_with_what_was_typed_and_what_would_fit() {
    let file = format!(
        "{HEAD}{}{}{}",
        tank("9", "A", "T1", 0),
        tank("9", "B", "T2", 1),
        tank("9", "C", "T1", 0)
    );
    let flags = assessed(file.as_bytes()).expect("a good file").flags;
    let inferred = without("shown", &flags);
    let lines = cells(&inferred);
    let of_b = lines.iter().find(|line| line[1] == "B");
    let most = of_b.expect("something of group B");
    assert_eq!(
        (&most[..8], &most[9..11]),
        (
            &[
                "9",
                "B",
                "ripple-tank",
                "3",
                "last_crest",
                "crest-miscount",
                "slip",
                "inferred"
            ][..],
            &["11", "10"][..]
        ),
        "{flags}"
    );
}

#[test]
fn a_probability_has_three_decimals_and_the_least_are_not_written() {
    let inferred = without("shown", &plainly().flags);
    let lines = cells(&inferred);
    assert!(lines.len() > 1, "nothing is inferred");
    for line in &lines[1..] {
        let probability: f64 = line[8].parse().expect("a number");
        assert!((0.05..=1.0).contains(&probability), "{line:?}");
        assert_eq!(line[8].len(), "0.050".len(), "{line:?}");
        assert!(
            line[9..11].iter().all(|figure| !figure.contains(' ')),
            "{line:?}"
        );
    }
}

#[test]
fn a_sheets_shown_flags_come_first_and_then_the_most_probable() {
    let mut lasts: BTreeMap<Vec<&str>, f64> = BTreeMap::new();
    for line in cells(&plainly().flags).into_iter().skip(1) {
        let probability: f64 = line[8].parse().expect("a number");
        let last = lasts.entry(line[..3].to_vec()).or_insert(1.0);
        assert!(probability <= *last, "{line:?} after {last}");
        *last = probability;
    }
}

#[test]
fn a_class_is_judged_by_itself() {
    let alone = format!("{HEAD}{}", tank("9", "B", "T2", 1));
    let beside = format!(
        "{HEAD}{}{}{}",
        tank("8", "A", "T2", 0),
        tank("9", "B", "T2", 1),
        tank("10", "A", "T2", 3)
    );
    let of_9 = |file: &str| {
        let flags = assessed(file.as_bytes()).expect("a good file").flags;
        let lines = flags.lines().filter(|line| line.starts_with("9,"));
        lines.map(str::to_owned).collect::<Vec<_>>()
    };
    assert!(!of_9(&alone).is_empty(), "something is inferred");
    assert_eq!(of_9(&alone), of_9(&beside));
}

#[test]
fn a_shared_set_may_be_declared_once_or_repeated_and_not_twice_otherwise() {
    let head = HEAD.replacen("kit", "kit,shared", 1);
    let file = |first: &str, second: &str| {
        format!(
            "{head}9,A,ripple-tank,T1,{first},1,10,0,10,38.9,cm,17.5,cm,10.0,cm,5\n9,A,ripple-tank,T1,{second},2,20,0,10,20.8,cm,,,,,\n"
        )
    };
    for (first, second) in [("set 1", ""), ("set 1", "set 1"), ("", "set 1"), ("", "")] {
        assessed(file(first, second).as_bytes()).expect("a good file");
    }
    let error = assessed(file("set 1", "set 2").as_bytes())
        .err()
        .expect("two sets");
    assert_eq!(
        error.to_string(),
        "line 3, column shared: “set 2” here, but “set 1” in line 2: a sheet has one value of it."
    );
}
