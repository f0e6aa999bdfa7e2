//! Classes, or teachers, side by side: one line for each and each practical.

use analysis::year::cells::Cells;

use crate::report::year::Named;
use crate::table::Table;

/// Makes the table of classes, or of teachers: `one` is what its first column
/// is called, `named` what the cells are of, in their order.
#[must_use]
pub fn cells<Id>(one: &'static str, named: &[Named<Id>], cells: &[Cells]) -> Table {
    let all = cells.iter().flat_map(|of_method| {
        let named = named.iter().zip(&of_method.cells);
        named.map(move |(named, cell)| (named.name.as_str(), cell, of_method))
    });
    let lines: Vec<_> = all.filter(|(_, cell, _)| cell.lessons > 0).collect();
    Table::of(&lines)
        .text(one, |(name, ..)| name)
        .text("method", |(.., of_method)| of_method.method.code())
        .figure("lessons", |(_, cell, _)| cell.lessons)
        .figure("groups", |(_, cell, _)| cell.handed_in.of)
        .figure("handed_in", |(_, cell, _)| cell.handed_in.made)
        .figure("complete", |(_, cell, _)| cell.complete.made)
        .figure("counted", |(_, cell, _)| cell.counted)
        .figure("left_aside", |(_, cell, _)| cell.left_aside)
        .figure("slips_taken_out", |(_, cell, _)| cell.slipped)
        .number("speed_median", |(_, cell, _)| cell.speed)
        .estimate("ratio", |(_, cell, _)| cell.ratio)
        .estimate("against_others", |(_, cell, _)| cell.against_others)
        .text("stands_apart", |(_, cell, _)| match cell.stands_apart {
            Some(true) => "yes",
            Some(false) => "no",
            None => "",
        })
        .number("sd", |(_, cell, _)| cell.sd)
        .figure("marked", |(_, cell, _)| {
            cell.marks.map_or(0, |marks| marks.groups)
        })
        .estimate("mark_mean", |(_, cell, _)| cell.marks?.mean)
        .number("repeatability", |(.., of)| {
            Some(of.together.as_ref()?.repeatability)
        })
        .number("reproducibility", |(.., of)| {
            Some(of.together.as_ref()?.reproducibility)
        })
        .table()
}
