//! One file as different programs save it.

use super::{Results, THEIR_GROUPS, TWO_CLASSES, assessed, cells, plainly};

fn same(file: &str) -> Results {
    let results = assessed(file.as_bytes()).expect("a good file");
    assert_eq!(results.flags, plainly().flags, "flags");
    assert_eq!(results.groups, THEIR_GROUPS, "groups");
    results
}

#[test]
fn a_byte_order_mark_changes_nothing() {
    same(&format!("\u{feff}{TWO_CLASSES}"));
    same(&format!(
        "\u{feff}{}",
        TWO_CLASSES.replacen("class", "\"class\"", 1)
    ));
}

#[test]
fn line_ends_and_trailing_blank_lines_change_nothing() {
    same(&TWO_CLASSES.replace('\n', "\r\n"));
    same(TWO_CLASSES.trim_end());
    same(&format!("{TWO_CLASSES}\n\r\n\n"));
    let blank = ",".repeat(cells(TWO_CLASSES)[0].len() - 1);
    same(&format!("{TWO_CLASSES}{blank}\r\n{blank}\n \n{blank}"));
}

#[test]
fn semicolons_change_nothing_and_are_said() {
    let results = same(&TWO_CLASSES.replace(',', ";"));
    assert!(results.report.assumed.semicolons);
    same(&format!(
        "\u{feff}{}",
        TWO_CLASSES.replace(',', ";").replace('\n', "\r\n")
    ));
}

#[test]
fn quotation_marks_round_every_cell_change_nothing() {
    let quoted: Vec<String> = TWO_CLASSES
        .lines()
        .map(|line| format!("\"{}\"\r\n", line.replace(',', "\",\"")))
        .collect();
    same(&quoted.concat());
}

#[test]
fn decimal_commas_change_nothing_but_the_figures_as_typed() {
    // In quotes between commas, and bare between semicolons.
    let comma = TWO_CLASSES.replace(',', ";").replace('.', ",");
    let quoted: Vec<String> = comma
        .lines()
        .map(|line| {
            let cells = line.split(';').map(|cell| {
                if cell.contains(',') {
                    format!("\"{cell}\"")
                } else {
                    cell.to_owned()
                }
            });
            cells.collect::<Vec<_>>().join(",") + "\n"
        })
        .collect();
    for file in [comma, quoted.concat()] {
        let results = assessed(file.as_bytes()).expect("a good file");
        let plain = |text: &str| {
            let mut lines = String::new();
            for record in csv::Reader::from_reader(text.as_bytes()).records() {
                let record = record.expect("CSV is written");
                let cells: Vec<_> = record.iter().map(|cell| cell.replace(',', ".")).collect();
                lines.push_str(&(cells.join(",") + "\n"));
            }
            lines
        };
        assert_eq!(plain(&results.flags), plain(&plainly().flags));
        assert_eq!(plain(&results.groups), plain(THEIR_GROUPS));
        let points = TWO_CLASSES.split(',').filter(|cell| cell.contains('.'));
        let said = results.report.assumed.decimal_commas.count;
        assert_eq!(usize::try_from(said).expect("few"), points.count());
    }
}
