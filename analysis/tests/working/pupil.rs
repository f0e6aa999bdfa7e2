//! A pupil who works a sheet out, with a calculator of their own: none of the
//! crate's arithmetic is used here.

use std::collections::BTreeMap;

use analysis::assess::{Assessment, assess};
use analysis::field::Field;
use analysis::method::Method;
use analysis::sheet::{Cell, Sheet, TypedRow, TypedSheet};
use analysis::slip::{Kind, Slip};

/// A row's readings.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Reading {
    pub(crate) dial: f64,
    pub(crate) times: f64,
    /// Waves (water) or loops (string) in the span.
    pub(crate) count: u32,
    /// Number called first.
    pub(crate) first: u32,
    /// In cm on the screen (water) or m along the string.
    pub(crate) span: f64,
}

/// How a pupil works.
#[derive(Clone, Debug)]
pub(crate) struct Habits {
    /// Significant figures written down.
    pub(crate) figures: u32,
    /// Whether they go on with the rounded figure, or keep the calculator's.
    pub(crate) goes_on_with_rounded: bool,
    /// Figures left blank.
    pub(crate) blank: Vec<Field>,
    /// Wrong turns by figure; a row of `None` is every row.
    pub(crate) wrong: Vec<(Slip, Option<usize>)>,
}

impl Habits {
    pub(crate) fn careful(figures: u32) -> Self {
        Self {
            figures,
            goes_on_with_rounded: false,
            blank: Vec::new(),
            wrong: Vec::new(),
        }
    }

    pub(crate) fn with(mut self, slip: Slip, row: Option<usize>) -> Self {
        self.wrong.push((slip, row));
        self
    }

    pub(crate) fn leaving_blank(mut self, blank: &[Field]) -> Self {
        self.blank.extend(blank);
        self
    }

    fn takes(&self, slip: Slip, row: usize) -> bool {
        self.wrong
            .iter()
            .any(|(s, at)| *s == slip && at.is_none_or(|at| at == row))
    }
}

/// A number to so many significant figures, as a pupil writes it.
pub(crate) fn rounded(value: f64, figures: u32) -> String {
    // The decade of the rounded number: 0.997 to two figures is 1.0.
    let places = usize::try_from(figures - 1).expect("a few figures");
    let scientific = format!("{value:.places$e}");
    let (_, decade) = scientific.split_once('e').expect("scientific form");
    let decade: f64 = decade.parse().expect("a whole number");
    let decimals = f64::from(figures) - 1.0 - decade;
    if decimals > 0.0 {
        let decimals = (0..20).take_while(|d| f64::from(*d) < decimals).count();
        format!("{value:.decimals$}")
    } else {
        let unit = 10_f64.powf(-decimals);
        format!("{:.0}", (value / unit).round() * unit)
    }
}

/// Writes figures down, and goes on with them as the pupil's habit is.
struct Book<'h> {
    habits: &'h Habits,
}

impl Book<'_> {
    fn write(
        &self,
        cells: &mut BTreeMap<Field, Cell>,
        field: Field,
        value: f64,
        unit: &str,
    ) -> f64 {
        let text = rounded(value, self.habits.figures);
        let goes_on = if self.habits.goes_on_with_rounded {
            text.parse().expect("a number that was just written")
        } else {
            value
        };
        if !self.habits.blank.contains(&field) {
            cells.insert(
                field,
                Cell {
                    text,
                    unit: unit.to_owned(),
                },
            );
        }
        goes_on
    }
}

pub(crate) fn cell(text: &str, unit: &str) -> Cell {
    Cell {
        text: text.to_owned(),
        unit: unit.to_owned(),
    }
}

/// A ripple-tank sheet, worked out. `scale` is image and true length in cm.
pub(crate) fn ripple(readings: &[Reading], scale: (f64, f64), habits: &Habits) -> TypedSheet {
    let book = Book { habits };
    let mut whole = BTreeMap::new();
    whole.insert(Field::ScaleImage, cell(&scale.0.to_string(), "cm"));
    whole.insert(Field::ScaleTrue, cell(&scale.1.to_string(), "cm"));
    let upside_down = habits.takes(Slip::ScaleUpsideDown, 0);
    let m = if upside_down {
        scale.1 / scale.0
    } else {
        scale.0 / scale.1
    };
    let m = book.write(&mut whole, Field::Magnification, m, "");
    let mut sheet = TypedSheet {
        method: Method::RippleTank,
        whole,
        rows: Vec::new(),
    };
    for (at, reading) in readings.iter().enumerate() {
        let mut cells = readings_of(reading);
        let last = reading.first + reading.count;
        cells.insert(Field::FirstCrest, cell(&reading.first.to_string(), ""));
        cells.insert(Field::LastCrest, cell(&last.to_string(), ""));
        cells.insert(Field::Span, cell(&reading.span.to_string(), "cm"));
        let mut wavelength = reading.span;
        if !habits.takes(Slip::SpanNotDivided, at) {
            let from_one = habits.takes(Slip::CountedFromOne, at);
            wavelength /= f64::from(if from_one { last } else { reading.count });
        }
        wavelength = if habits.takes(Slip::ScaleLeftOut, at) {
            wavelength
        } else if habits.takes(Slip::ScaleMultiplied, at) {
            wavelength * m
        } else {
            wavelength / m
        };
        if habits.takes(Slip::CrestToTrough, at) {
            wavelength /= 2.0;
        }
        finish_row(&book, &mut cells, at, reading, wavelength, 0.01);
        sheet.rows.push(TypedRow {
            label: (at + 1).to_string(),
            cells,
            left_out: false,
        });
    }
    finish_sheet(&book, &mut sheet);
    sheet
}

/// A string sheet, worked out; spans in m.
pub(crate) fn string(readings: &[Reading], habits: &Habits) -> TypedSheet {
    let book = Book { habits };
    let mut sheet = TypedSheet {
        method: Method::StringLoops,
        whole: BTreeMap::new(),
        rows: Vec::new(),
    };
    for (at, reading) in readings.iter().enumerate() {
        let mut cells = readings_of(reading);
        cells.insert(Field::Length, cell(&reading.span.to_string(), "m"));
        cells.insert(Field::LengthLoops, cell(&reading.count.to_string(), ""));
        let nodes = habits.takes(Slip::NodesCountedAsLoops, at);
        let loops = f64::from(if nodes {
            reading.count + 1
        } else {
            reading.count
        });
        let one_loop = habits.takes(Slip::LoopTakenAsWavelength, at);
        let wavelength = reading.span / loops * if one_loop { 1.0 } else { 2.0 };
        finish_row(&book, &mut cells, at, reading, wavelength, 1.0);
        sheet.rows.push(TypedRow {
            label: (at + 1).to_string(),
            cells,
            left_out: false,
        });
    }
    finish_sheet(&book, &mut sheet);
    sheet
}

fn readings_of(reading: &Reading) -> BTreeMap<Field, Cell> {
    let mut cells = BTreeMap::new();
    cells.insert(Field::Dial, cell(&reading.dial.to_string(), ""));
    cells.insert(Field::DialTimes, cell(&reading.times.to_string(), ""));
    cells
}

/// Frequency, wavelength (a number of `unit` metres), reciprocal and speed.
fn finish_row(
    book: &Book<'_>,
    cells: &mut BTreeMap<Field, Cell>,
    at: usize,
    reading: &Reading,
    wavelength: f64,
    unit: f64,
) {
    let habits = book.habits;
    let times = if habits.takes(Slip::DialMultiplierLeftOut, at) {
        1.0
    } else {
        reading.times
    };
    let mut f = reading.dial * times;
    if habits.takes(Slip::PeriodAsFrequency, at) {
        f = 1.0 / f;
    }
    let f = book.write(cells, Field::Frequency, f, "");
    let symbol = if unit < 0.1 { "cm" } else { "m" };
    let wavelength = book.write(cells, Field::Wavelength, wavelength, symbol) * unit;
    let reciprocal = if habits.takes(Slip::ReciprocalLeftOut, at) {
        wavelength
    } else {
        1.0 / wavelength
    };
    book.write(cells, Field::Reciprocal, reciprocal, "1/m");
    let mut speed = if habits.takes(Slip::SpeedDivided, at) {
        f / wavelength
    } else if habits.takes(Slip::SpeedInverted, at) {
        wavelength / f
    } else {
        f * wavelength
    };
    if habits.takes(Slip::UnitPowerOfTen, at) {
        speed *= 100.0;
    }
    book.write(cells, Field::Speed, speed, "m/s");
}

/// Mean of the written speeds, and the gradient of a line through the origin.
fn finish_sheet(book: &Book<'_>, sheet: &mut TypedSheet) {
    let habits = book.habits;
    let column = |field: Field| -> Vec<f64> {
        let number = |row: &TypedRow| row.cells.get(&field)?.text.parse().ok();
        sheet.rows.iter().filter_map(number).collect()
    };
    let speeds = column(Field::Speed);
    let (f, x) = (column(Field::Frequency), column(Field::Reciprocal));
    if speeds.len() == sheet.rows.len() {
        let sum: f64 = speeds.iter().sum();
        let count = speeds.len() as f64;
        let mean = if habits.takes(Slip::MeanNotDivided, 0) {
            sum
        } else if habits.takes(Slip::MeanWrongCount, 0) {
            sum / (count + 2.0)
        } else {
            sum / count
        };
        book.write(&mut sheet.whole, Field::MeanSpeed, mean, "m/s");
    }
    if f.len() == sheet.rows.len() && x.len() == f.len() {
        let slope = f.iter().zip(&x).map(|(f, x)| f * x).sum::<f64>()
            / x.iter().map(|x| x * x).sum::<f64>();
        let upside_down = habits.takes(Slip::GradientUpsideDown, 0);
        let gradient = if upside_down { 1.0 / slope } else { slope };
        book.write(&mut sheet.whole, Field::Gradient, gradient, "m/s");
    }
}

pub(crate) fn judged(sheet: &TypedSheet) -> Assessment {
    assess(&Sheet::check(sheet).expect("a sheet that can be read"))
}

/// The slips of a sheet (no remarks), with step and row index.
pub(crate) fn slips(sheet: &TypedSheet) -> Vec<(Field, Slip, Option<usize>)> {
    judged(sheet)
        .flags
        .iter()
        .filter(|flag| flag.slip.kind() == Kind::Slip)
        .map(|flag| (flag.step, flag.slip, flag.row))
        .collect()
}

/// Five readings of a clean tank: about 25 cm/s, enlarged 1.75 times.
pub(crate) fn tank() -> Vec<Reading> {
    [
        (1.0, 22.2, 10),
        (1.5, 13.7, 9),
        (2.0, 11.9, 10),
        (2.5, 8.93, 9),
        (3.0, 8.60, 10),
    ]
    .map(|(dial, span, count)| Reading {
        dial,
        times: 10.0,
        count,
        first: 0,
        span: (span * 17.5_f64).round() / 10.0,
    })
    .into()
}

/// Five harmonics of a string 1.20 m long at about 48 m/s.
pub(crate) fn cord() -> Vec<Reading> {
    [(2.0, 1), (4.0, 2), (6.01, 3), (8.02, 4), (9.98, 5)]
        .map(|(dial, count)| Reading {
            dial,
            times: 10.0,
            count,
            first: 0,
            span: 1.203,
        })
        .into()
}

/// Half a unit of the last place of a figure as written; of the last place
/// that is no nought in a whole number: `100` stands for 50 to 150.
pub(crate) fn half_a_unit(text: &str) -> f64 {
    let place = match text.split_once('.') {
        Some((_, decimals)) => -i32::try_from(decimals.len()).expect("few"),
        None => i32::try_from(text.len() - text.trim_end_matches('0').len()).expect("few"),
    };
    0.5 * 10_f64.powi(place)
}

/// Whether the mean that is written can stand for the mean of the speeds that
/// are written, each for all that rounds to it.
pub(crate) fn mean_may_be_right(sheet: &TypedSheet) -> bool {
    let number = |text: &str| text.parse::<f64>().expect("a number");
    let written = &sheet.whole[&Field::MeanSpeed].text;
    let speeds: Vec<_> = sheet
        .rows
        .iter()
        .map(|row| row.cells[&Field::Speed].text.as_str())
        .collect();
    let count = speeds.len() as f64;
    let mean = speeds.iter().map(|text| number(text)).sum::<f64>() / count;
    let reach = speeds.iter().map(|text| half_a_unit(text)).sum::<f64>() / count;
    (number(written) - mean).abs() <= half_a_unit(written) + reach
}
