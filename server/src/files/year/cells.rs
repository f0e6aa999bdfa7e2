//! Classes, or teachers, side by side: one line for each and each practical.

use analysis::year::cells::{Cell, Cells};

use super::{estimated, number, table, typed};

/// The classes file, or the teachers': `one` is what its first column is
/// called, `names` what the cells are of, in their order.
///
/// # Errors
/// When the table cannot be written.
pub fn cells(one: &str, names: &[&str], cells: &[Cells]) -> csv::Result<Vec<u8>> {
    let columns = [
        one,
        "method",
        "lessons",
        "groups",
        "handed_in",
        "complete",
        "counted",
        "left_aside",
        "slips_taken_out",
        "speed_median",
        "ratio",
        "ratio_low",
        "ratio_high",
        "against_others",
        "against_others_low",
        "against_others_high",
        "stands_apart",
        "sd",
        "marked",
        "mark_mean",
        "mark_mean_low",
        "mark_mean_high",
        "repeatability",
        "reproducibility",
    ];
    let mut lines = Vec::new();
    for of_method in cells {
        let all = names.iter().zip(&of_method.cells);
        for (name, cell) in all.filter(|(_, cell)| cell.lessons > 0) {
            lines.push(line(name, cell, of_method));
        }
    }
    table(columns, lines)
}

fn line(name: &str, cell: &Cell, of_method: &Cells) -> [String; 24] {
    let [ratio, ratio_low, ratio_high] = estimated(cell.ratio);
    let [against, against_low, against_high] = estimated(cell.against_others);
    let [mean, mean_low, mean_high] = estimated(cell.marks.and_then(|marks| marks.mean));
    let together = of_method.together.as_ref();
    [
        typed(name),
        of_method.method.code().to_owned(),
        cell.lessons.to_string(),
        cell.handed_in.of.to_string(),
        cell.handed_in.made.to_string(),
        cell.complete.made.to_string(),
        cell.counted.to_string(),
        cell.left_aside.to_string(),
        cell.slipped.to_string(),
        number(cell.speed),
        ratio,
        ratio_low,
        ratio_high,
        against,
        against_low,
        against_high,
        match cell.stands_apart {
            Some(true) => "yes",
            Some(false) => "no",
            None => "",
        }
        .to_owned(),
        number(cell.sd),
        cell.marks.map_or(0, |marks| marks.groups).to_string(),
        mean,
        mean_low,
        mean_high,
        number(together.map(|together| together.repeatability)),
        number(together.map(|together| together.reproducibility)),
    ]
}
