//! The groups file: one line a sheet.

use std::io::Write;

use analysis::assess::{Assessment, SheetSpeed, SpeedBy, Standing};
use analysis::class_set::GroupStanding;
use analysis::unit::Unit;

use super::cell;
use super::readings::ClassReadings;
use super::sheet_lines::SheetReadings;

/// The columns, in their order.
pub const COLUMNS: [&str; 15] = [
    "class",
    "group",
    "method",
    "kit",
    "rows",
    "speed",
    "speed_low",
    "speed_high",
    "speed_by",
    "given_speed",
    "given_unit",
    "expected_speed",
    "robust_z",
    "outlier",
    "anomalous_rows",
];

/// Writes the sheets of a class, each with its assessment and with how it
/// stands among those of its method.
///
/// # Errors
/// When the output cannot be written.
pub fn write<W: Write>(
    out: &mut csv::Writer<W>,
    class: &ClassReadings,
    assessed: &[Assessment],
    standings: &[GroupStanding],
) -> csv::Result<()> {
    for ((sheet, assessment), standing) in class.sheets.iter().zip(assessed).zip(standings) {
        out.write_record(record(&class.class, sheet, assessment, standing))?;
    }
    Ok(())
}

fn record(
    class: &str,
    sheet: &SheetReadings,
    assessment: &Assessment,
    standing: &GroupStanding,
) -> [String; COLUMNS.len()] {
    let speed = assessment.speed;
    let interval = speed.and_then(|speed| speed.interval);
    let own = assessment.own_answer.as_ref();
    let anomalous: Vec<_> = assessment
        .rows
        .iter()
        .filter(|row| row.standing == Standing::Anomalous)
        .map(|row| row.label.trim())
        .collect();
    [
        cell::typed(class).into_owned(),
        cell::typed(&sheet.group).into_owned(),
        sheet.method().code().to_owned(),
        cell::typed(sheet.entry.kit.trim()).into_owned(),
        sheet.rows_with_readings().to_string(),
        cell::number(speed.map(|speed| speed.value)),
        cell::number(interval.map(|interval| interval.low)),
        cell::number(interval.map(|interval| interval.high)),
        speed.map_or("", by).to_owned(),
        own.map_or(String::new(), |own| {
            cell::typed(own.text.trim()).into_owned()
        }),
        own.and_then(|own| own.unit)
            .map_or("", Unit::symbol)
            .to_owned(),
        cell::number(speed.and_then(|speed| speed.expected)),
        cell::number(standing.robust_z),
        if standing.outlier { "yes" } else { "no" }.to_owned(),
        cell::typed(&anomalous.join(" ")).into_owned(),
    ]
}

fn by(speed: SheetSpeed) -> &'static str {
    SpeedBy::code(speed.by)
}
