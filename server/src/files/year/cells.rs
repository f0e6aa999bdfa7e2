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
        "sd",
        "h",
        "h_line",
        "k",
        "k_line",
        "marked",
        "mark_mean",
        "mark_mean_low",
        "mark_mean_high",
        "mark_least",
        "mark_lower_quartile",
        "mark_median",
        "mark_upper_quartile",
        "mark_most",
        "repeatability",
        "reproducibility",
        "h_line_5",
        "k_line_5",
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

fn line(name: &str, cell: &Cell, of_method: &Cells) -> Vec<String> {
    let [ratio, ratio_low, ratio_high] = estimated(cell.ratio);
    let [against, against_low, against_high] = estimated(cell.against_others);
    let [mean, mean_low, mean_high] = estimated(cell.marks.and_then(|marks| marks.mean));
    let quartiles = (0..5).map(|at| number(cell.marks.map(|marks| marks.quartiles[at])));
    let h_lines = of_method
        .together
        .as_ref()
        .and_then(|together| together.h_lines);
    let mut line = vec![
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
        number(cell.sd),
        number(cell.h),
        number(h_lines.map(|[_, one]| one)),
        number(cell.k),
        number(cell.k_lines.map(|[_, one]| one)),
        cell.marks.map_or(0, |marks| marks.groups).to_string(),
        mean,
        mean_low,
        mean_high,
    ];
    line.extend(quartiles);
    let together = of_method.together.as_ref();
    line.extend([
        number(together.map(|together| together.repeatability)),
        number(together.map(|together| together.reproducibility)),
        number(h_lines.map(|[five, _]| five)),
        number(cell.k_lines.map(|[five, _]| five)),
    ]);
    line
}
