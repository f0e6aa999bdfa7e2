//! Readings that agree beyond chance, among the flags.

use super::{assessed, cells};

const HEAD: &str = "class,group,method,kit,shared,row,dial,first_crest,last_crest,span,span_unit,scale_image,scale_image_unit,scale_true,scale_true_unit,depth_mm\n";

/// Spans in mm at 10, 15, 20, 25, 30 and 40 Hz, measured by three groups for
/// themselves.
const SPANS: [[u32; 6]; 3] = [
    [389, 273, 208, 174, 151, 121],
    [385, 270, 210, 171, 149, 122],
    [393, 275, 206, 175, 153, 119],
];

fn sheet(group: &str, shared: &str, spans: [u32; 6]) -> String {
    let rows = [10, 15, 20, 25, 30, 40].into_iter().zip(spans).enumerate();
    let lines = rows.map(|(at, (dial, span))| {
        format!(
            "9,{group},ripple-tank,T1,{shared},{},{dial},0,10,{span},mm,175,mm,100,mm,5\n",
            at + 1
        )
    });
    lines.collect()
}

/// The lines that ask, of a class with these groups: label, declared set, whose
/// spans.
fn asked(groups: &[(&str, &str, usize)]) -> Vec<String> {
    let sheets = groups
        .iter()
        .map(|(group, shared, whose)| sheet(group, shared, SPANS[*whose]));
    let file = format!("{HEAD}{}", sheets.collect::<String>());
    let flags = assessed(file.as_bytes()).expect("a good file").flags;
    let lines = flags
        .lines()
        .filter(|line| line.contains("copied-readings"));
    lines.map(str::to_owned).collect()
}

#[test]
fn each_group_concerned_has_one_line_that_asks() {
    let lines = asked(&[("A", "", 0), ("B", "", 1), ("C", "", 0), ("D", "", 2)]);
    assert_eq!(lines.len(), 2, "{lines:?}");
    for (line, group) in lines.iter().zip(["A", "C"]) {
        let cells = cells(line).remove(0);
        let [probability] = cells[8..9] else {
            panic!("{line}");
        };
        let probability: f64 = probability.parse().expect("a number");
        assert!(probability > 0.5, "{line}");
        assert_eq!(
            (&cells[..8], &cells[9..]),
            (
                &[
                    "9",
                    group,
                    "ripple-tank",
                    "",
                    "span",
                    "copied-readings",
                    "question",
                    "inferred"
                ][..],
                &["389", "", ""][..]
            )
        );
    }
}

#[test]
fn groups_that_measured_for_themselves_are_not_asked() {
    assert!(asked(&[("A", "", 0), ("B", "", 1), ("C", "", 2)]).is_empty());
}

#[test]
fn declared_set_is_not_asked_about_whatever_it_is_called() {
    for said in [["set 1", "Set 1"], ["", "A"], ["group c", ""]] {
        let lines = asked(&[("A", said[0], 0), ("B", "", 1), ("C", said[1], 0)]);
        assert!(lines.is_empty(), "{said:?}: {lines:?}");
    }
}
