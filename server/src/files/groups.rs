//! The groups file: one line a sheet.

use analysis::assess::{Assessment, SpeedBy, Standing};
use analysis::unit::Unit;

use super::assess::ClassJudged;
use super::readings::ClassReadings;
use crate::table::Table;

/// Makes the table of a class: each sheet with its assessment, and with how it
/// stands among those of its method.
pub(super) fn table(class: &ClassReadings, judged: &ClassJudged) -> Table {
    let sheets = class.sheets.iter().zip(&judged.assessed);
    let lines: Vec<_> = sheets
        .zip(&judged.standings)
        .map(|((sheet, of), standing)| (sheet, of, standing))
        .collect();
    Table::of(&lines)
        .text("class", |_| &class.class)
        .text("group", |(sheet, ..)| &sheet.group)
        .text("method", |(sheet, ..)| sheet.method().code())
        .text("kit", |(sheet, ..)| sheet.entry.kit.trim())
        .figure("rows", |(sheet, ..)| sheet.rows_with_readings())
        .number("speed", |(_, of, _)| of.speed.map(|speed| speed.value))
        .ends("speed", |(_, of, _)| of.speed?.interval)
        .text("speed_by", |(_, of, _)| {
            of.speed.map_or("", |speed| SpeedBy::code(speed.by))
        })
        .figure("given_speed", |(_, of, _)| {
            of.own_answer.as_ref().map_or("", |own| own.text.trim())
        })
        .text("given_unit", |(_, of, _)| {
            let unit = of.own_answer.as_ref().and_then(|own| own.unit);
            unit.map_or("", Unit::symbol)
        })
        .number("expected_speed", |(_, of, _)| of.speed?.expected)
        .number("robust_z", |(.., standing)| standing.robust_z)
        .text("outlier", |(.., standing)| match standing.outlier {
            true => "yes",
            false => "no",
        })
        .text("anomalous_rows", |(_, of, _)| anomalous(of))
        .table()
}

fn anomalous(assessment: &Assessment) -> String {
    let rows = assessment.rows.iter();
    let rows = rows.filter(|row| row.standing == Standing::Anomalous);
    rows.map(|row| row.label.trim())
        .collect::<Vec<_>>()
        .join(" ")
}
