//! A group at its calculator: from the readings in the boxes to the working,
//! with the wrong turns that it takes.

use analysis::field::Field;
use analysis::figure::significant;
use analysis::sheet::{Cell, Cells, TypedSheet};
use analysis::slip::Slip;
use analysis::unit::Unit;

use crate::hand::Hand;

/// How a group works its sheet out.
#[derive(Clone, Debug)]
pub(crate) struct Pupil {
    /// Significant figures written down.
    pub(crate) figures: u32,
    /// Whether they go on with the figure as written, or with the calculator's.
    pub(crate) rounds_on_the_way: bool,
    /// Unit of their wavelengths.
    pub(crate) wavelength_in: Unit,
    /// Unit of their speeds.
    pub(crate) speed_in: Unit,
    /// Boxes that they leave alone.
    pub(crate) blank: &'static [Field],
    /// What goes wrong: on one row (by index), or throughout.
    pub(crate) wrong: Vec<(Slip, Option<usize>)>,
}

/// The figures of a row, in SI units, as the group has them.
struct Row {
    frequency: f64,
    reciprocal: f64,
    speed: f64,
    counts: bool,
}

impl Pupil {
    pub(crate) fn errs(&self, slip: Slip) -> bool {
        self.wrong.iter().any(|(s, _)| *s == slip)
    }

    fn errs_on(&self, slip: Slip, row: usize) -> bool {
        self.wrong
            .iter()
            .any(|(s, at)| *s == slip && at.is_none_or(|at| at == row))
    }

    /// Fills the working in.
    pub(crate) fn work_out(&self, sheet: &mut TypedSheet, hand: &mut Hand) {
        let enlargement = self.enlargement(&mut sheet.whole);
        let rows: Vec<_> = sheet
            .rows
            .iter_mut()
            .enumerate()
            .map(|(at, row)| {
                let counts = !row.left_out && !self.drops(at);
                self.row(at, &mut row.cells, enlargement, counts)
            })
            .collect();
        self.mean(&mut sheet.whole, &rows);
        self.uncertainty(&mut sheet.whole, &rows);
        self.gradient(&mut sheet.whole, &rows, hand);
    }

    /// Whether they leave a row aside without a word.
    fn drops(&self, at: usize) -> bool {
        self.wrong.contains(&(Slip::RowLeftOutUnsaid, Some(at)))
    }

    /// Writes a figure and returns what they go on with, in SI units.
    fn write(&self, cells: &mut Cells, field: Field, si: f64, unit: Option<Unit>) -> f64 {
        if self.blank.contains(&field) {
            return si;
        }
        let many = field == Field::Speed && self.errs(Slip::TooManyFigures);
        let few = field == Field::MeanSpeed && self.errs(Slip::TooFewFigures);
        let figures = if many {
            8
        } else if few {
            1
        } else {
            self.figures
        };
        let scale = unit.map_or(1.0, Unit::si);
        let text = significant(si / scale, figures);
        let on_paper = text.parse().map_or(si, |number: f64| number * scale);
        let is_unit_forgotten = field == Field::Speed && self.errs(Slip::UnitMissing);
        let beside = unit.filter(|_| field.asks_unit() && !is_unit_forgotten);
        let unit = beside.map_or("", Unit::symbol).to_owned();
        cells.insert(field, Cell { text, unit });
        if self.rounds_on_the_way { on_paper } else { si }
    }

    /// M; `None` on a string.
    fn enlargement(&self, whole: &mut Cells) -> Option<f64> {
        let image = reading(whole, Field::ScaleImage)?;
        let object = reading(whole, Field::ScaleTrue)?;
        let m = if self.errs(Slip::ScaleUpsideDown) {
            object / image
        } else {
            image / object
        };
        Some(self.write(whole, Field::Magnification, m, None))
    }

    fn row(&self, at: usize, cells: &mut Cells, enlargement: Option<f64>, counts: bool) -> Row {
        let f = self.frequency(at, cells);
        let frequency = self.write(cells, Field::Frequency, f, Some(Unit::Hertz));
        let l = match enlargement {
            Some(m) => self.ripple(at, cells, m),
            None => self.two_loops(at, cells),
        };
        let wavelength = self.write(cells, Field::Wavelength, l, Some(self.wavelength_in));
        let x = if self.errs_on(Slip::ReciprocalLeftOut, at) {
            wavelength
        } else {
            1.0 / wavelength
        };
        let reciprocal = self.write(cells, Field::Reciprocal, x, Some(Unit::PerMetre));
        let v = self.speed(at, frequency, wavelength);
        let speed = self.write(cells, Field::Speed, v, Some(self.speed_in));
        Row {
            frequency,
            reciprocal,
            speed,
            counts,
        }
    }

    fn frequency(&self, at: usize, cells: &Cells) -> f64 {
        let number = |field| reading(cells, field).unwrap_or(1.0);
        let f = if cells.contains_key(&Field::Dial) {
            let is_alone = self.errs_on(Slip::DialMultiplierLeftOut, at);
            number(Field::Dial)
                * if is_alone {
                    1.0
                } else {
                    number(Field::DialTimes)
                }
        } else {
            let count = number(Field::PassesLast) - number(Field::PassesFirst);
            let is_count = self.errs_on(Slip::CountNotDivided, at);
            count
                / if is_count {
                    1.0
                } else {
                    number(Field::Seconds)
                }
        };
        if self.errs_on(Slip::PeriodAsFrequency, at) {
            1.0 / f
        } else {
            f
        }
    }

    fn ripple(&self, at: usize, cells: &Cells, enlargement: f64) -> f64 {
        let number = |field| reading(cells, field).unwrap_or(0.0);
        let first = if self.errs_on(Slip::CountedFromOne, at) {
            0.0
        } else {
            number(Field::FirstCrest)
        };
        let is_whole = self.errs_on(Slip::SpanNotDivided, at);
        let waves = if is_whole {
            1.0
        } else {
            number(Field::LastCrest) - first
        };
        let on_screen = number(Field::Span) / waves;
        let wavelength = if self.errs_on(Slip::ScaleLeftOut, at) {
            on_screen
        } else if self.errs_on(Slip::ScaleMultiplied, at) {
            on_screen * enlargement
        } else {
            on_screen / enlargement
        };
        wavelength
            * if self.errs_on(Slip::CrestToTrough, at) {
                0.5
            } else {
                1.0
            }
    }

    fn two_loops(&self, at: usize, cells: &Cells) -> f64 {
        let number = |field| reading(cells, field).unwrap_or(1.0);
        let extra = if self.errs_on(Slip::NodesCountedAsLoops, at) {
            1.0
        } else {
            0.0
        };
        let one_loop = number(Field::Length) / (number(Field::LengthLoops) + extra);
        one_loop
            * if self.errs_on(Slip::LoopTakenAsWavelength, at) {
                1.0
            } else {
                2.0
            }
    }

    fn speed(&self, at: usize, frequency: f64, wavelength: f64) -> f64 {
        let right = frequency * wavelength;
        if self.errs_on(Slip::SpeedDivided, at) {
            frequency / wavelength
        } else if self.errs_on(Slip::SpeedInverted, at) {
            wavelength / frequency
        } else if self.errs_on(Slip::UnitPowerOfTen, at) {
            // Centimetres times hertz, with metres per second written beside it.
            100.0 * right
        } else if self.errs_on(Slip::DoesNotFollow, at) {
            // A key of the calculator that was not meant.
            1.37 * right
        } else {
            right
        }
    }

    fn mean(&self, whole: &mut Cells, rows: &[Row]) {
        let all = self.errs(Slip::AnomalyAveragedIn);
        let taken: Vec<_> = rows
            .iter()
            .filter(|row| all || row.counts)
            .map(|row| row.speed)
            .collect();
        let sum: f64 = taken.iter().sum();
        let count: f64 = taken.iter().map(|_| 1.0).sum();
        let divisor = if self.errs(Slip::MeanNotDivided) {
            1.0
        } else if self.errs(Slip::MeanWrongCount) {
            count - 1.0
        } else {
            count
        };
        self.write(whole, Field::MeanSpeed, sum / divisor, Some(self.speed_in));
    }

    /// Half the range of the speeds in the mean, to one figure. Who writes
    /// every figure that the calculator shows has not come so far.
    fn uncertainty(&self, whole: &mut Cells, rows: &[Row]) {
        let taken: Vec<_> = rows
            .iter()
            .filter(|row| row.counts)
            .map(|row| row.speed)
            .collect();
        let largest = taken.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let smallest = taken.iter().copied().fold(f64::INFINITY, f64::min);
        if taken.len() < 2 || self.errs(Slip::TooManyFigures) {
            return;
        }
        let half = (largest - smallest) / 2.0;
        let text = significant(half / self.speed_in.si(), 1);
        let unit = self.speed_in.symbol().to_owned();
        whole.insert(Field::Uncertainty, Cell { text, unit });
    }

    /// A line drawn by eye: between the one through the origin and the best
    /// that ignores it, and read to about a per cent.
    fn gradient(&self, whole: &mut Cells, rows: &[Row], hand: &mut Hand) {
        let points: Vec<_> = rows
            .iter()
            .filter(|r| r.counts)
            .map(|r| (r.reciprocal, r.frequency))
            .collect();
        let through_origin = sum(&points, |(x, f)| x * f) / sum(&points, |(x, _)| x * x);
        let count = sum(&points, |_| 1.0);
        let (x, f) = (
            sum(&points, |(x, _)| x) / count,
            sum(&points, |(_, f)| f) / count,
        );
        let free =
            sum(&points, |(a, b)| (a - x) * (b - f)) / sum(&points, |(a, _)| (a - x).powi(2));
        let drawn = through_origin + 0.5 * hand.share() * (free - through_origin);
        let read = drawn * hand.factor(0.008);
        let gradient = match rows.first() {
            Some(row) if self.errs(Slip::GradientFromOnePoint) => row.frequency / row.reciprocal,
            _ if self.errs(Slip::GradientUpsideDown) => 1.0 / read,
            _ => read,
        };
        self.write(whole, Field::Gradient, gradient, Some(Unit::MetrePerSecond));
    }
}

fn sum(points: &[(f64, f64)], term: impl Fn((f64, f64)) -> f64) -> f64 {
    points.iter().map(|point| term(*point)).sum()
}

/// A reading in SI units; the bench wrote it, so it is a plain number.
fn reading(cells: &Cells, field: Field) -> Option<f64> {
    let cell = cells.get(&field)?;
    let number: f64 = cell.text.parse().ok()?;
    Some(number * Unit::parse(&cell.unit).map_or(1.0, Unit::si))
}
