//! A full ripple-tank sheet, worked out.

use analysis::field::Field;
use analysis::method::Method;
use analysis::sheet::{Cell, Cells, TypedRow, TypedSheet};
use server::db::revision::{Answers, Entry};

/// Frequency in Hz, waves in the span, span on the screen in cm.
const ROWS: [(f64, f64, f64); 6] = [
    (10.0, 6.0, 24.7),
    (15.0, 8.0, 22.4),
    (20.0, 9.0, 19.6),
    (25.0, 10.0, 18.1),
    (30.0, 10.0, 15.7),
    (35.0, 10.0, 14.0),
];

/// Six rows with every figure filled in; spans `level` times the usual, and
/// the enlargement of 1.75 left out of the wavelengths or not.
pub(crate) fn full_sheet(level: f64, leaves_scale_out: bool) -> Entry {
    let enlargement = if leaves_scale_out { 1.0 } else { 1.75 };
    let mut rows = Vec::new();
    let (mut speeds, mut xy, mut xx) = (0.0, 0.0, 0.0);
    for (at, (f, waves, span)) in ROWS.into_iter().enumerate() {
        let wavelength = span * level / waves / enlargement;
        let reciprocal = 100.0 / wavelength;
        let speed = f * wavelength / 100.0;
        speeds += speed;
        xy += f * reciprocal;
        xx += reciprocal * reciprocal;
        let cells = Cells::from([
            (Field::Dial, cell(f.to_string(), "")),
            (Field::DialTimes, cell("1", "")),
            (Field::FirstCrest, cell("0", "")),
            (Field::LastCrest, cell(waves.to_string(), "")),
            (Field::Span, cell(format!("{:.1}", span * level), "cm")),
            (Field::Frequency, cell(format!("{f:.1}"), "")),
            (Field::Wavelength, cell(format!("{wavelength:.2}"), "cm")),
            (Field::Reciprocal, cell(format!("{reciprocal:.1}"), "1/m")),
            (Field::Speed, cell(format!("{speed:.3}"), "m/s")),
        ]);
        rows.push(TypedRow {
            label: (at + 1).to_string(),
            cells,
            left_out: false,
        });
    }
    let whole = Cells::from([
        (Field::ScaleTrue, cell("8.0", "cm")),
        (Field::ScaleImage, cell("14.0", "cm")),
        (Field::Magnification, cell("1.75", "")),
        (Field::Depth, cell("5", "")),
        (
            Field::MeanSpeed,
            cell(format!("{:.3}", speeds / 6.0), "m/s"),
        ),
        (Field::Gradient, cell(format!("{:.3}", xy / xx), "m/s")),
    ]);
    Entry {
        sheet: TypedSheet {
            method: Method::RippleTank,
            whole,
            rows,
        },
        kit: "Tank 3".to_owned(),
        shared: String::new(),
        answers: Answers::default(),
    }
}

fn cell(text: impl Into<String>, unit: &str) -> Cell {
    Cell {
        text: text.into(),
        unit: unit.to_owned(),
    }
}
