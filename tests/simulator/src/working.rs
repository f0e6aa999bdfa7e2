//! A group at its calculator: from the readings in the boxes to the working,
//! with the wrong turns that it takes.

use crate::dice::Dice;
use crate::sheet::{Cells, Code, Method, Sheet, Unit, cell, read, rounded, si};
use crate::slip::Event;

/// How a group works its sheet out.
#[derive(Clone, Debug)]
pub struct Habits {
    /// Significant figures written down.
    pub figures: u32,
    /// Whether they go on with the figure as written, or with the
    /// calculator's.
    pub goes_on_with_rounded: bool,
    /// Whether they write a whole frequency as the dial shows it: `10`, not
    /// `10.0`.
    pub bare: bool,
    /// The unit of their wavelengths; `None` is cm on water and m on a string.
    pub wavelength: Option<Unit>,
    /// The unit of their speeds.
    pub speed: Unit,
    /// Figures of the uncertainty, half the range of the speeds in the mean;
    /// `None` where they give none.
    pub uncertainty: Option<u32>,
    /// The seed of the hand that draws their line by eye; `None` where they
    /// work the line through the origin out.
    pub by_eye: Option<u64>,
    /// Boxes that they leave alone.
    pub blank: Vec<Code>,
    /// What goes wrong: on one row, or throughout.
    pub wrong: Vec<Event>,
}

/// Figures that a row gives to the mean and to the line.
struct Point {
    speed: Option<f64>,
    along: Option<f64>,
    up: Option<f64>,
}

impl Habits {
    /// Somebody who makes no mistake.
    #[must_use]
    pub fn careful(figures: u32) -> Self {
        Self {
            figures,
            goes_on_with_rounded: false,
            bare: false,
            wavelength: None,
            speed: "m/s",
            uncertainty: None,
            by_eye: None,
            blank: Vec::new(),
            wrong: Vec::new(),
        }
    }

    /// Returns the habits with a wrong turn, in one row or in all.
    #[must_use]
    pub fn with(mut self, slip: Code, row: Option<usize>) -> Self {
        self.wrong.push((slip, row));
        self
    }

    /// Whether they take a wrong turn somewhere.
    #[must_use]
    pub fn errs(&self, slip: Code) -> bool {
        self.wrong.iter().any(|(made, _)| *made == slip)
    }

    fn errs_on(&self, slip: Code, row: usize) -> bool {
        let mut made = self.wrong.iter().filter(|(made, _)| *made == slip);
        made.any(|(_, at)| at.is_none_or(|at| at == row))
    }

    /// Fills the working in.
    pub fn work_out(&self, sheet: &mut Sheet) {
        let wavelength = self.wavelength.unwrap_or(match sheet.method {
            Method::RippleTank => "cm",
            Method::StringLoops => "m",
        });
        let enlargement = self.enlargement(&mut sheet.whole);
        for at in 0..sheet.rows.len() {
            // An eye that slips a line takes the waves of the row above.
            let is_above = self.errs_on("other-rows-figure", at);
            let measured = sheet.rows[at - usize::from(is_above && at > 0)]
                .cells
                .clone();
            let own = if measured.contains_key("span") {
                self.ripple(at, &measured, enlargement)
            } else {
                self.two_loops(at, &measured)
            };
            self.row(at, &mut sheet.rows[at].cells, own, wavelength);
        }
        let all = self.errs("anomaly-averaged-in");
        let counts = |at: usize| !sheet.rows[at].left_out && !self.drops(at);
        let (mut counted, mut averaged) = (Vec::new(), Vec::new());
        for (at, row) in sheet.rows.iter().enumerate() {
            if counts(at) {
                counted.push(self.point(&row.cells));
            }
            if all || counts(at) {
                averaged.push(self.point(&row.cells));
            }
        }
        self.mean(&mut sheet.whole, &averaged);
        self.uncertainty(&mut sheet.whole, &counted);
        self.gradient(&mut sheet.whole, &counted);
    }

    /// Whether they leave a row aside without a word.
    fn drops(&self, at: usize) -> bool {
        self.wrong.contains(&("row-left-out-unsaid", Some(at)))
    }

    /// Writes a figure and returns what they go on with, in SI units.
    fn write(&self, cells: &mut Cells, column: Code, value: f64, unit: Unit) -> f64 {
        if self.blank.contains(&column) {
            return value;
        }
        let figures = match column {
            "speed" if self.errs("too-many-figures") => 8,
            "mean_speed" if self.errs("too-few-figures") => 1,
            _ => self.figures,
        };
        let mut text = rounded(value / si(unit), figures);
        if self.bare && column == "frequency" && text.contains('.') {
            text = text.trim_end_matches('0').trim_end_matches('.').to_owned();
        }
        let on_paper = text.parse().map_or(value, |number: f64| number * si(unit));
        let is_forgotten = column == "speed" && self.errs("unit-missing");
        cells.insert(column, cell(text, if is_forgotten { "" } else { unit }));
        if self.goes_on_with_rounded {
            on_paper
        } else {
            value
        }
    }

    /// Image over true length. `None` on a string, and where nobody measured
    /// it.
    fn enlargement(&self, whole: &mut Cells) -> Option<f64> {
        let ratio = read(whole, "scale_image")? / read(whole, "scale_true")?;
        let is_upside_down = self.errs("scale-upside-down");
        let m = if is_upside_down { ratio.recip() } else { ratio };
        Some(self.write(whole, "magnification", m, ""))
    }

    fn row(&self, at: usize, cells: &mut Cells, wavelength: f64, unit: Unit) {
        let frequency = self.frequency(at, cells);
        let f = self.write(cells, "frequency", frequency, "");
        let l = self.write(cells, "wavelength", wavelength, unit);
        let x = if self.errs_on("reciprocal-left-out", at) {
            l
        } else {
            l.recip()
        };
        self.write(cells, "reciprocal", x, "1/m");
        let turns: [(Code, f64); 4] = [
            ("speed-divided", f / l),
            ("speed-inverted", l / f),
            // Centimetres times hertz, with metres per second written beside.
            ("unit-power-of-ten", 100.0 * f * l),
            // A key of the calculator that was not meant.
            ("does-not-follow", 1.37 * f * l),
        ];
        let taken = turns.iter().find(|(slip, _)| self.errs_on(slip, at));
        let speed = taken.map_or(f * l, |(_, speed)| *speed);
        self.write(cells, "speed", speed, self.speed);
    }

    fn frequency(&self, at: usize, cells: &Cells) -> f64 {
        let number = |column| read(cells, column).unwrap_or(1.0);
        let f = if cells.contains_key("dial") {
            let is_alone = self.errs_on("dial-multiplier-left-out", at);
            number("dial") * if is_alone { 1.0 } else { number("dial_times") }
        } else {
            let count = number("passes_last") - number("passes_first");
            let is_count = self.errs_on("count-not-divided", at);
            count / if is_count { 1.0 } else { number("seconds") }
        };
        if self.errs_on("period-as-frequency", at) {
            1.0 / f
        } else {
            f
        }
    }

    /// A wavelength on the water; on the screen where there is no enlargement.
    fn ripple(&self, at: usize, cells: &Cells, enlargement: Option<f64>) -> f64 {
        let number = |column| read(cells, column).unwrap_or(0.0);
        let first = if self.errs_on("counted-from-one", at) {
            0.0
        } else {
            number("first_crest")
        };
        let waves = if self.errs_on("span-not-divided", at) {
            1.0
        } else {
            number("last_crest") - first
        };
        let m = enlargement.unwrap_or(1.0);
        let divisor = if self.errs_on("scale-left-out", at) {
            1.0
        } else if self.errs_on("scale-multiplied", at) {
            m.recip()
        } else {
            m
        };
        let half = self.errs_on("crest-to-trough", at);
        number("span") / waves / divisor * if half { 0.5 } else { 1.0 }
    }

    fn two_loops(&self, at: usize, cells: &Cells) -> f64 {
        let number = |column| read(cells, column);
        let covered = number("length_loops").or_else(|| number("loops"));
        if self.errs_on("span-not-divided", at) {
            return number("length").unwrap_or(0.0);
        }
        let nodes = self.errs_on("nodes-counted-as-loops", at);
        let covered = covered.unwrap_or(1.0);
        // One loop has no node between its ends.
        let inner = self.errs_on("inner-nodes-counted", at) && covered > 1.0;
        let loops = covered + f64::from(nodes) - f64::from(inner);
        let one_loop = number("length").unwrap_or(0.0) / loops;
        let is_one = self.errs_on("loop-taken-as-wavelength", at);
        one_loop * if is_one { 1.0 } else { 2.0 }
    }

    /// What is written in a row, in SI units.
    fn point(&self, cells: &Cells) -> Point {
        let number = |column: Code, unit: Unit| {
            let figure: f64 = cells.get(column)?.text.parse().ok()?;
            Some(figure * si(unit))
        };
        Point {
            speed: number("speed", self.speed),
            along: number("reciprocal", ""),
            up: number("frequency", ""),
        }
    }

    /// The mean of the speeds that are written, where all of them are.
    fn mean(&self, whole: &mut Cells, points: &[Point]) {
        let Some(speeds) = all(points, |point| point.speed) else {
            return;
        };
        let sum: f64 = speeds.iter().sum();
        let count: f64 = speeds.iter().map(|_| 1.0).sum();
        let divisor = if self.errs("mean-not-divided") {
            1.0
        } else if self.errs("mean-wrong-count") {
            count - 1.0
        } else {
            count
        };
        let product = all(points, |point| Some((point.along?, point.up?))).map(|points| {
            let means = (
                self::sum(&points, |x, _| x.recip()),
                self::sum(&points, |_, f| f),
            );
            means.0 * means.1 / (count * count)
        });
        let mean = product
            .filter(|_| self.errs("means-multiplied"))
            .unwrap_or(sum / divisor);
        self.write(whole, "mean_speed", mean, self.speed);
    }

    /// Half the range of the speeds. Who writes every figure that the
    /// calculator shows has not come so far.
    fn uncertainty(&self, whole: &mut Cells, points: &[Point]) {
        let speeds = all(points, |point| point.speed).filter(|speeds| speeds.len() > 1);
        let (Some(figures), Some(speeds)) = (self.uncertainty, speeds) else {
            return;
        };
        if self.errs("too-many-figures") {
            return;
        }
        let largest = speeds.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let smallest = speeds.iter().copied().fold(f64::INFINITY, f64::min);
        let half = (largest - smallest) / 2.0 / si(self.speed);
        let half = cell(rounded(half, figures), self.speed);
        whole.insert("uncertainty", half);
    }

    /// The gradient of the line through the origin; or of one drawn by eye,
    /// between that and the best that ignores the origin, and read to about a
    /// per cent.
    fn gradient(&self, whole: &mut Cells, points: &[Point]) {
        let Some(points) = all(points, |point| Some((point.along?, point.up?))) else {
            return;
        };
        let through_origin = sum(&points, |x, f| x * f) / sum(&points, |x, _| x * x);
        let read = match self.by_eye {
            None => through_origin,
            Some(seed) => {
                let count = sum(&points, |_, _| 1.0);
                let (x, f) = (
                    sum(&points, |x, _| x) / count,
                    sum(&points, |_, f| f) / count,
                );
                let free =
                    sum(&points, |a, b| (a - x) * (b - f)) / sum(&points, |a, _| (a - x).powi(2));
                let mut dice = Dice::new(seed);
                let drawn = through_origin + 0.5 * dice.share() * (free - through_origin);
                drawn * dice.factor(0.008)
            }
        };
        let gradient = match points.first() {
            Some((x, f)) if self.errs("gradient-from-one-point") => f / x,
            _ if self.errs("gradient-upside-down") => 1.0 / read,
            _ => read,
        };
        self.write(whole, "gradient", gradient, "m/s");
    }
}

/// A figure of each point. `None` where one lacks it, or there is no point.
fn all<T>(points: &[Point], figure: impl Fn(&Point) -> Option<T>) -> Option<Vec<T>> {
    let all: Option<Vec<T>> = points.iter().map(figure).collect();
    all.filter(|all| !all.is_empty())
}

fn sum(points: &[(f64, f64)], term: impl Fn(f64, f64) -> f64) -> f64 {
    points.iter().map(|(x, f)| term(*x, *f)).sum()
}
