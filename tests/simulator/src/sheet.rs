//! Sheets as they come out: text in boxes that have the names of the readings
//! format.

use std::collections::BTreeMap;

use serde::Serialize;

/// A name of the readings format: of a column or of a slip.
pub type Code = &'static str;

/// A unit as written.
pub type Unit = &'static str;

/// What a class does in a lesson.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Method {
    /// Ripples on water, enlarged on a screen.
    RippleTank,
    /// Loops on a stretched string.
    StringLoops,
}

/// A box as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Cell {
    /// The figure.
    pub text: String,
    /// The unit beside it; blank where there is none.
    pub unit: String,
}

/// Boxes by their columns.
pub type Cells = BTreeMap<Code, Cell>;

/// A row of the table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Row {
    /// The number that the group gave it.
    pub label: String,
    /// Its boxes.
    pub cells: Cells,
    /// Whether the group marked it as left out.
    pub left_out: bool,
}

/// A sheet as typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Sheet {
    /// What was done.
    pub method: Method,
    /// Boxes of the whole sheet.
    pub whole: Cells,
    /// The table.
    pub rows: Vec<Row>,
}

impl Sheet {
    /// Makes a sheet of rows that are numbered from 1.
    #[must_use]
    pub fn new(method: Method, whole: Cells, rows: impl IntoIterator<Item = Cells>) -> Self {
        let rows = (1..).zip(rows).map(|(number, cells): (u32, Cells)| Row {
            label: number.to_string(),
            cells,
            left_out: false,
        });
        Self {
            method,
            whole,
            rows: rows.collect(),
        }
    }
}

/// A figure with the unit beside it.
#[expect(
    clippy::needless_pass_by_value,
    reason = "numbers are written as they are"
)]
pub fn cell(text: impl ToString, unit: impl Into<String>) -> Cell {
    Cell {
        text: text.to_string(),
        unit: unit.into(),
    }
}

/// How much of the SI unit a unit is: 1 where it is one, or blank.
#[must_use]
pub fn si(unit: &str) -> f64 {
    match unit {
        "mm" | "mm/s" => 1e-3,
        "cm" | "cm/s" => 1e-2,
        "1/cm" => 1e2,
        _ => 1.0,
    }
}

/// The figure in a box, in SI. `None` where there is none.
#[must_use]
pub fn read(cells: &Cells, column: &str) -> Option<f64> {
    let cell = cells.get(column)?;
    let figure: f64 = cell.text.parse().ok()?;
    Some(figure * si(&cell.unit))
}

/// A length as a ruler shows it, to the millimetre, written in a unit.
#[must_use]
pub fn length(mm: f64, unit: Unit) -> Cell {
    let text = match unit {
        "mm" => format!("{mm:.0}"),
        "cm" => format!("{:.1}", mm.round() / 10.0),
        _ => format!("{:.3}", mm / 1000.0),
    };
    cell(text, unit)
}

/// A number to so many significant figures, as a pupil writes it: 100 to two
/// figures is `100`.
#[must_use]
pub fn rounded(value: f64, figures: u32) -> String {
    // The decade of the rounded number: 0.997 to two figures is 1.0.
    let places = usize::try_from(figures.saturating_sub(1)).unwrap_or(0);
    let scientific = format!("{value:.places$e}");
    let decade = scientific.split_once('e').map_or("0", |(_, decade)| decade);
    let decade: i32 = decade.parse().unwrap_or(0);
    let decimals = i32::try_from(places).unwrap_or(0) - decade;
    match usize::try_from(decimals) {
        Ok(decimals) => format!("{value:.decimals$}"),
        Err(_) => {
            let unit = 10_f64.powi(-decimals);
            format!("{:.0}", (value / unit).round() * unit)
        }
    }
}

/// A row's readings, for tests that choose every figure.
#[derive(Clone, Copy, Debug)]
pub struct Reading {
    /// On the dial.
    pub dial: f64,
    /// Its multiplier.
    pub times: f64,
    /// Waves or loops in the span.
    pub count: u32,
    /// The number called first.
    pub first: u32,
    /// In cm on the screen, or in m along the string.
    pub span: f64,
}

impl Reading {
    fn cells(self, own: impl IntoIterator<Item = (Code, Cell)>) -> Cells {
        let dial = [
            ("dial", cell(self.dial, "")),
            ("dial_times", cell(self.times, "")),
        ];
        dial.into_iter().chain(own).collect()
    }
}

/// A tank's sheet without working; `scale` has image and true length in cm.
#[must_use]
pub fn tank_sheet(readings: &[Reading], (image, object): (f64, f64)) -> Sheet {
    let whole = Cells::from([
        ("scale_image", cell(image, "cm")),
        ("scale_true", cell(object, "cm")),
    ]);
    let row = |reading: &Reading| {
        reading.cells([
            ("first_crest", cell(reading.first, "")),
            ("last_crest", cell(reading.first + reading.count, "")),
            ("span", cell(reading.span, "cm")),
        ])
    };
    Sheet::new(Method::RippleTank, whole, readings.iter().map(row))
}

/// A string's sheet without working, measured from end to end.
#[must_use]
pub fn string_sheet(readings: &[Reading]) -> Sheet {
    let row = |reading: &Reading| {
        reading.cells([
            ("length", cell(reading.span, "m")),
            ("length_loops", cell(reading.count, "")),
        ])
    };
    let rows = readings.iter().map(row);
    Sheet::new(Method::StringLoops, Cells::new(), rows)
}
