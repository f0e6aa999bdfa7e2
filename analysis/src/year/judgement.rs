//! What the year reads of one sheet: a few figures, worth keeping.

use serde::{Deserialize, Serialize};

use crate::assess::{Assessment, Standing};
use crate::field::Field;
use crate::sheet::Sheet;
use crate::slip::{Kind, Slip};

/// A sheet, as far as the year goes into it.
///
/// The three figures of the whole sheet are no part of its text: whoever
/// keeps a judgement keeps them beside it, as numbers. Figures of rows are
/// rounded far below what any instrument tells, so that the text is short.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Judgement {
    /// The speed that the sheet stands for, in m/s; `None` where no row is
    /// complete.
    #[serde(skip)]
    pub speed: Option<f64>,
    /// The same recipe on the expected curve, in m/s; `None` where nothing is
    /// known of the apparatus.
    #[serde(skip)]
    pub expected: Option<f64>,
    /// Standard uncertainty of ln(speed) from the scatter of its rows; `None`
    /// for one row.
    #[serde(skip)]
    pub uncertainty: Option<f64>,
    /// The rows that the group did not leave out and that belong with the
    /// others, where a speed is expected of them.
    pub rows: Vec<RowLevel>,
    /// Slips that the working shows, remarks not among them.
    pub slips: Vec<Shown>,
    /// Whether the group gave any figure that it worked out.
    pub has_working: bool,
    /// Whether it gave an answer of its own: a gradient or a mean.
    pub has_answer: bool,
}

/// One row against what its apparatus should give.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(from = "[f64; 4]", into = "[f64; 4]")]
pub struct RowLevel {
    /// f, in Hz.
    pub frequency: f64,
    /// ln(v/expected v).
    pub level: f64,
    /// How far ln v moves per N/m of surface tension; 0 on a string.
    pub by_surface_tension: f64,
    /// How far ln v moves per unit of ln depth; 0 on a string.
    pub by_ln_depth: f64,
}

/// A slip in the working, named as a person's decision on it names it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shown {
    /// The box concerned.
    pub step: Field,
    /// What was done.
    pub slip: Slip,
    /// The row as the group labelled it; blank for the whole sheet.
    pub row_label: String,
}

impl From<[f64; 4]> for RowLevel {
    fn from([frequency, level, by_surface_tension, by_ln_depth]: [f64; 4]) -> Self {
        Self {
            frequency,
            level,
            by_surface_tension,
            by_ln_depth,
        }
    }
}

impl From<RowLevel> for [f64; 4] {
    fn from(row: RowLevel) -> Self {
        [
            row.frequency,
            row.level,
            row.by_surface_tension,
            row.by_ln_depth,
        ]
    }
}

impl Judgement {
    /// What the year keeps of a sheet that was assessed.
    #[must_use]
    pub fn of(sheet: &Sheet, assessment: &Assessment) -> Self {
        let finite = |value: &f64| value.is_finite();
        let line = assessment.through_origin;
        let uncertainty = line
            .filter(|line| line.df > 0)
            .map(|line| (line.slope.se / line.slope.value).abs());
        let slips = assessment
            .flags
            .iter()
            .filter(|flag| flag.slip.kind() == Kind::Slip)
            .map(|flag| Shown {
                step: flag.step,
                slip: flag.slip,
                row_label: flag
                    .row
                    .and_then(|row| assessment.rows.get(row))
                    .map_or_else(String::new, |row| row.label.clone()),
            });
        let mut comparisons = assessment.comparisons.iter();
        Self {
            speed: assessment.speed.map(|s| s.value).filter(finite),
            expected: assessment.speed.and_then(|s| s.expected).filter(finite),
            uncertainty: uncertainty.filter(finite),
            rows: rows(sheet, assessment),
            slips: slips.collect(),
            has_working: comparisons.any(|comparison| comparison.given.is_some()),
            has_answer: assessment.own_answer.is_some(),
        }
    }

    /// ln(speed/expected); `None` where no expected speed is known, or either
    /// is not above nought.
    #[must_use]
    pub fn log_ratio(&self) -> Option<f64> {
        let ratio = (self.speed? / self.expected?).ln();
        ratio.is_finite().then_some(ratio)
    }
}

fn rows(sheet: &Sheet, assessment: &Assessment) -> Vec<RowLevel> {
    let rows = assessment.rows.iter();
    rows.filter(|row| !row.left_out && row.standing != Standing::Anomalous)
        .filter_map(|row| {
            let frequency = row.frequency?;
            let level = (row.speed? / row.expected_speed?).ln();
            let (tension, depth) = sheet.method.model().speed_moves_by(&sheet.whole, frequency);
            let all = [frequency, level, tension, depth].map(rounded);
            let is_finite = all.iter().all(|x| x.is_finite());
            is_finite.then(|| RowLevel::from(all))
        })
        .collect()
}

/// To a millionth.
fn rounded(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
