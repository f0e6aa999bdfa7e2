//! A school year: many class sets -> comparison.
//!
//! The practical is an inter-laboratory study: many groups measure what
//! physics foretells, with their own apparatus. So everything is compared as
//! ln(speed/expected), the physics at each group's own frequencies, depth and
//! tension; and the statistics are those of such studies.
//!
//! `judgement.rs` says what is read of one sheet, `kits/` whether a kit reads
//! high or low, `slips.rs` who made which slip, `cells.rs` compares classes
//! (and teachers) as laboratories are compared.
//!
//! # What it is not for
//! Differences between a few groups are mostly chance. Everything carries an
//! interval; what rests on too little is said to; nothing is ranked.

pub mod cells;
mod judgement;
pub mod kits;
pub mod share;
pub mod slips;

use serde::{Deserialize, Serialize};

use crate::cause::Cause;
use crate::interval::Interval;
use crate::method::Method;
use crate::slip::Slip;

pub use judgement::{Judgement, RowLevel, Shown};

/// The version of what a judgement and a comparison hold, for whoever keeps
/// them: raised by hand when either may differ.
pub const VERSION: &str = "1.5";

/// A year's lessons, kits and the sheets that were handed in.
#[derive(Clone, Debug, Default)]
pub struct Year {
    /// By date.
    pub lessons: Vec<Lesson>,
    /// How many classes there are.
    pub classes: usize,
    /// How many teachers there are.
    pub teachers: usize,
    /// What each kit is.
    pub kits: Vec<kits::Kind>,
    /// The sheets.
    pub sheets: Vec<YearSheet>,
}

/// One class doing one practical on one date.
#[derive(Clone, Copy, Debug)]
pub struct Lesson {
    /// Which class, from 0.
    pub class: usize,
    /// Whose class set, from 0.
    pub teacher: usize,
    /// What was done.
    pub method: Method,
    /// The month, counted from the start of the school year: 0 for September,
    /// 11 for August.
    pub month: usize,
    /// Groups of the class set, whether or not they handed in.
    pub groups: usize,
}

/// A sheet that was handed in, as it is now.
#[derive(Clone, Debug)]
pub struct YearSheet {
    /// In which lesson.
    pub lesson: usize,
    /// The kits that it names: a string and a generator may be two.
    pub kits: Vec<usize>,
    /// What it says.
    pub judgement: Judgement,
    /// What counts of it: each once, in order.
    pub made: Vec<Made>,
    /// Whether a slip that a person confirmed is still in its readings: then
    /// it says nothing of its kit.
    pub is_slipped: bool,
    /// Marks ÷ full marks, where every point is marked.
    pub mark: Option<f64>,
}

/// What counts: a slip that the working shows and nobody dismissed, or what
/// the readings suggest (a slip, or a fault of the apparatus) and a person
/// confirmed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Made {
    /// In the working.
    Shown(Slip),
    /// In the readings.
    Confirmed(Cause),
}

impl Made {
    /// Returns where it is: in the working, or in the readings. The word of its
    /// address.
    #[must_use]
    pub fn place(self) -> &'static str {
        match self {
            Self::Shown(_) => "working",
            Self::Confirmed(_) => "readings",
        }
    }

    /// Returns its code in addresses and files.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Shown(slip) => slip.code(),
            Self::Confirmed(cause) => cause.code(),
        }
    }

    /// Returns what an address names by its place and its code; `None` where
    /// there is no such thing.
    #[must_use]
    pub fn named(place: &str, code: &str) -> Option<Self> {
        match place {
            "working" => Slip::from_code(code).map(Self::Shown),
            "readings" => Cause::from_code(code).map(Self::Confirmed),
            _ => None,
        }
    }
}

/// A year compared.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Comparison {
    /// One for each kit.
    pub kits: Vec<kits::KitYear>,
    /// The levels that kits of each kind and method are compared with.
    pub levels: Vec<kits::Level>,
    /// Every slip that could be made.
    pub slips: Vec<slips::SlipYear>,
    /// One for each method that was done, by class.
    pub classes: Vec<cells::Cells>,
    /// The same by teacher.
    pub teachers: Vec<cells::Cells>,
    /// Sheets handed in, and groups.
    pub handed_in: share::Share,
}

/// Compares a year.
#[must_use]
pub fn compare(year: &Year) -> Comparison {
    let (kits, levels) = kits::compare(year);
    Comparison {
        kits,
        levels,
        slips: slips::count(year),
        classes: cells::compare(year, year.classes, |lesson| lesson.class),
        teachers: cells::compare(year, year.teachers, |lesson| lesson.teacher),
        handed_in: share::Share {
            made: year.sheets.len(),
            of: year.lessons.iter().map(|lesson| lesson.groups).sum(),
        },
    }
}

/// A figure with the interval that it lies in with 95 % confidence.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(from = "[f64; 3]", into = "[f64; 3]")]
pub struct Estimated {
    /// The figure.
    pub value: f64,
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

impl From<[f64; 3]> for Estimated {
    fn from([value, low, high]: [f64; 3]) -> Self {
        Self { value, low, high }
    }
}

impl From<Estimated> for [f64; 3] {
    fn from(figure: Estimated) -> Self {
        [figure.value, figure.low, figure.high]
    }
}

impl From<Estimated> for Interval {
    fn from(Estimated { low, high, .. }: Estimated) -> Self {
        Self { low, high }
    }
}

impl Estimated {
    /// A ratio from its logarithm, give or take `reach`; `None` where either
    /// is no number.
    #[must_use]
    pub fn of_log(log: f64, reach: f64) -> Option<Self> {
        let figure = Self {
            value: log.exp(),
            low: (log - reach).exp(),
            high: (log + reach).exp(),
        };
        let all: [f64; 3] = figure.into();
        all.iter().all(|x| x.is_finite()).then_some(figure)
    }

    /// The same figure counted from another nought.
    #[must_use]
    pub fn less(self, nought: f64) -> Self {
        Self {
            value: self.value - nought,
            low: self.low - nought,
            high: self.high - nought,
        }
    }

    /// Whether the interval leaves a value out.
    #[must_use]
    pub fn excludes(self, value: f64) -> bool {
        value < self.low || self.high < value
    }
}

impl Year {
    /// The lesson of a sheet.
    ///
    /// # Panics
    /// When the sheet is of another year.
    #[must_use]
    pub fn lesson(&self, sheet: &YearSheet) -> &Lesson {
        &self.lessons[sheet.lesson]
    }
}
