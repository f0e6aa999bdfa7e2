//! What a kit that is off looks like.
//!
//! Each fault bends ln(speed/expected) over frequency in a shape of its own:
//!
//! | fault | shape | size that is possible |
//! |---|---|---|
//! | lamp or screen moved; a dial's scale | the same at all f | up to 35 % |
//! | surface (grease, soap; or cleaner than the others) | d ln v/dσ: more at high f | σ from 20 to 75 mN/m |
//! | depth | d ln v/d ln h: at low f only | a quarter to four times |
//! | dial out by some hertz | 1/f: at low f most | up to 3 Hz |
//!
//! Each is fitted with one coefficient to the rows of the kit's sheets, rows
//! scattering about their sheet and sheets about their kit as in the whole
//! department (generalised least squares; a sheet's rows share its error in
//! the enlargement, so its shape weighs more than its height). What the best
//! shape takes off χ² beyond the next one is twice the logarithm of how much
//! likelier it makes the readings. A fault stands alone only where it makes
//! them [`LEAD`] times as likely; else all that are not that much behind are
//! named together.

use serde::{Deserialize, Serialize};

use super::Kind;
use super::level::Level;
use crate::year::{RowLevel, Year};

/// How many times as likely a fault must make the readings as the next one
/// to be named alone. Our choice: what statistics call strong evidence.
pub const LEAD: f64 = 20.0;

/// Sheets this many standard deviations from their kit are left out of the
/// comparison of shapes: whatever happened to them is their own.
const GROSS: f64 = 3.0;

/// What a kit's rows look like.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fingerprint {
    /// The faults that none beats clearly, best first.
    pub faults: Vec<Fault>,
    /// How many standard errors the best of them is from nothing at all.
    pub sigmas: f64,
    /// What the best does at the lowest and at the highest frequency that was
    /// measured.
    pub ends: [End; 2],
}

/// One end of a kit's frequencies.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct End {
    /// In Hz.
    pub frequency: f64,
    /// How far off its speeds are there: 0.06 for 6 % high.
    pub off: f64,
}

/// What may be wrong with a kit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fault {
    /// Lamp or screen at another height than the enlargement was taken at.
    Lamp,
    /// Dirtier water than the other tanks', or cleaner.
    Surface,
    /// Another depth than is written down.
    Depth,
    /// A dial whose scale is out by a factor.
    Dial,
    /// A dial that is out by the same number of hertz everywhere.
    DialOffset,
    /// Another string than is written down, a stretched one, or masses and
    /// pulley that do not pull as they should.
    String,
    /// The string or the tank that a generator stands beside: wherever the
    /// generator is not told from it, whatever the shape.
    Beside,
}

struct Shape {
    fault: Fault,
    at: fn(&RowLevel) -> f64,
    possible: fn(f64, &Level) -> bool,
}

fn shapes(kind: Kind) -> &'static [Shape] {
    match kind {
        Kind::Tank => &TANK,
        Kind::Generator => &GENERATOR,
        Kind::String => &STRING,
    }
}

const TANK: [Shape; 3] = [
    Shape {
        fault: Fault::Lamp,
        at: |_| 1.0,
        possible: is_factor,
    },
    Shape {
        fault: Fault::Surface,
        at: |row| row.by_surface_tension,
        possible: |change, level| {
            // From clean water's 72.7 mN/m, by the department's and by this.
            (0.020..0.075).contains(&(0.0727 + level.tension + change))
        },
    },
    Shape {
        fault: Fault::Depth,
        at: |row| row.by_ln_depth,
        possible: |change, _| change.abs() < 4.0_f64.ln(),
    },
];

const GENERATOR: [Shape; 2] = [
    Shape {
        fault: Fault::Dial,
        at: |_| 1.0,
        possible: is_factor,
    },
    Shape {
        fault: Fault::DialOffset,
        at: |row| row.frequency.recip(),
        possible: |hertz, _| hertz.abs() < 3.0,
    },
];

/// A string's own faults and its generator's dial shift all rows alike.
const STRING: [Shape; 3] = [
    Shape {
        fault: Fault::String,
        at: |_| 1.0,
        possible: is_factor,
    },
    Shape {
        fault: Fault::Dial,
        at: |_| 1.0,
        possible: is_factor,
    },
    Shape {
        fault: Fault::DialOffset,
        at: |row| row.frequency.recip(),
        possible: |hertz, _| hertz.abs() < 3.0,
    },
];

fn is_factor(change: f64, _: &Level) -> bool {
    change.abs() < 0.3
}

/// What a kit's sheets look like, about the robust mean of their values;
/// `None` where no shape fits at all.
pub(super) fn of(
    year: &Year,
    sheets: &[(usize, f64)],
    level: &Level,
    mean: f64,
) -> Option<Fingerprint> {
    let (sd, row_sd) = (level.sd?, level.row_sd?);
    let kept = sheets
        .iter()
        .filter(|(_, value)| (value - mean).abs() <= GROSS * sd)
        .map(|(at, _)| year.sheets[*at].judgement.rows.as_slice());
    let kept: Vec<&[RowLevel]> = kept.filter(|rows| !rows.is_empty()).collect();
    let noise = Noise::of(&kept, sd, row_sd);
    let fitted = shapes(level.kind)
        .iter()
        .filter_map(|shape| fit(&kept, shape, level, noise))
        .filter(|fitted| (fitted.shape.possible)(fitted.size, level));
    let mut fitted: Vec<Fitted<'_>> = fitted.collect();
    fitted.sort_by(|one, other| other.better.total_cmp(&one.better));
    let best = fitted.first()?;
    let is_near = |fitted: &&Fitted<'_>| best.better - fitted.better < 2.0 * LEAD.ln();
    Some(Fingerprint {
        faults: fitted
            .iter()
            .filter(is_near)
            .map(|f| f.shape.fault)
            .collect(),
        sigmas: best.better.max(0.0).sqrt(),
        ends: ends(&kept, best)?,
    })
}

/// The shape's effect in the rows of the lowest and of the highest frequency.
fn ends(sheets: &[&[RowLevel]], best: &Fitted<'_>) -> Option<[End; 2]> {
    let rows = || sheets.iter().flat_map(|rows| rows.iter());
    let by_frequency =
        |one: &&RowLevel, other: &&RowLevel| one.frequency.total_cmp(&other.frequency);
    let end = |row: &RowLevel| End {
        frequency: row.frequency,
        off: (best.size * (best.shape.at)(row)).exp_m1(),
    };
    let (lowest, highest) = (rows().min_by(by_frequency)?, rows().max_by(by_frequency)?);
    Some([end(lowest), end(highest)])
}

/// Variances of rows about their sheet, and of sheets about their kit beyond
/// what their rows explain.
#[derive(Clone, Copy, Debug)]
struct Noise {
    row: f64,
    sheet: f64,
}

impl Noise {
    fn of(sheets: &[&[RowLevel]], sd: f64, row_sd: f64) -> Self {
        let rows: usize = sheets.iter().map(|rows| rows.len()).sum();
        let in_a_sheet = rows as f64 / sheets.len().max(1) as f64;
        let row = row_sd * row_sd;
        Self {
            row,
            sheet: (sd * sd - row / in_a_sheet.max(1.0)).max(0.0),
        }
    }

    /// x′ V⁻¹ y over one sheet, for V = row × I + sheet × J (J all ones).
    fn product(self, pairs: &[(f64, f64)]) -> f64 {
        let n = pairs.len() as f64;
        let both: f64 = pairs.iter().map(|(x, y)| x * y).sum();
        let (x, y) = pairs
            .iter()
            .fold((0.0, 0.0), |(sx, sy), (x, y)| (sx + x, sy + y));
        let shared = self.sheet / (self.row + n * self.sheet);
        (both - shared * x * y) / self.row
    }
}

/// A shape with its size, and what it takes off χ².
struct Fitted<'s> {
    shape: &'s Shape,
    size: f64,
    better: f64,
}

fn fit<'s>(
    sheets: &[&[RowLevel]],
    shape: &'s Shape,
    level: &Level,
    noise: Noise,
) -> Option<Fitted<'s>> {
    let (mut curvature, mut pull) = (0.0, 0.0);
    for rows in sheets {
        let usual = |row: &RowLevel| level.offset + level.tension * row.by_surface_tension;
        let points = rows
            .iter()
            .map(|row| ((shape.at)(row), row.level - usual(row)));
        let points: Vec<(f64, f64)> = points.collect();
        let squares: Vec<(f64, f64)> = points.iter().map(|(x, _)| (*x, *x)).collect();
        curvature += noise.product(&squares);
        pull += noise.product(&points);
    }
    let size = pull / curvature;
    let fitted = Fitted {
        shape,
        size,
        better: size * pull,
    };
    size.is_finite().then_some(fitted)
}
