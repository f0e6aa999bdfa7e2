//! What groups at a tank and at a string have in common: their place, and how
//! they write their working.

use analysis::field::Field;
use analysis::sheet::{Cell, Cells, TypedRow};

use super::School;

/// Where a group works, and when.
pub(super) struct Bench<'a> {
    pub(super) school: &'a School,
    /// Groups take the kits in turn.
    pub(super) place: usize,
    /// Whether it is the second half of the year.
    pub(super) is_late: bool,
}

/// A row's readings and what the group makes of them.
pub(super) struct Worked {
    pub(super) readings: Vec<(Field, String, &'static str)>,
    pub(super) frequency: f64,
    /// As the group works it out: in m.
    pub(super) wavelength: f64,
    /// The unit that it is written in, and how many of it a metre has.
    pub(super) unit: (&'static str, f64),
}

/// The rows, and what the group makes of all of them.
pub(super) fn write(worked: &[Worked]) -> (Vec<TypedRow>, Cells) {
    let (mut speeds, mut xy, mut xx) = (0.0, 0.0, 0.0);
    let mut rows = Vec::new();
    for (at, row) in worked.iter().enumerate() {
        let reciprocal = row.wavelength.recip();
        let speed = row.frequency * row.wavelength;
        speeds += speed;
        xy += row.frequency * reciprocal;
        xx += reciprocal * reciprocal;
        let (unit, in_a_metre) = row.unit;
        let mut cells: Cells = row
            .readings
            .iter()
            .map(|(field, text, unit)| (*field, cell(text.clone(), unit)))
            .collect();
        cells.insert(Field::Frequency, cell(figures(row.frequency), ""));
        cells.insert(
            Field::Wavelength,
            cell(figures(row.wavelength * in_a_metre), unit),
        );
        cells.insert(Field::Reciprocal, cell(figures(reciprocal), "1/m"));
        cells.insert(Field::Speed, cell(figures(speed), "m/s"));
        rows.push(TypedRow {
            label: (at + 1).to_string(),
            cells,
            left_out: false,
        });
    }
    let mean = speeds / worked.len() as f64;
    let whole = Cells::from([
        (Field::MeanSpeed, cell(figures(mean), "m/s")),
        (Field::Gradient, cell(figures(xy / xx), "m/s")),
    ]);
    (rows, whole)
}

/// Four significant figures.
pub(super) fn figures(value: f64) -> String {
    analysis::figure::significant(value, 4)
}

pub(super) fn cell(text: impl Into<String>, unit: &str) -> Cell {
    Cell {
        text: text.into(),
        unit: unit.to_owned(),
    }
}
