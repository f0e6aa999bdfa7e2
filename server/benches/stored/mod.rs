//! What a stored judgement would hold: as much of an assessment as the pages
//! show, in the plainest JSON.

use analysis::assess::{Assessment, RowResult, Standing};
use analysis::field::Field;
use analysis::stats::interval::Estimate;
use analysis::sum::Sum;
use analysis::working::{Comparison, Flag, Verdict};
use serde::{Deserialize, Serialize};

/// A judgement.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) struct StoredAssessment {
    magnification: Option<f64>,
    mean_speed: Option<StoredEstimate>,
    slope: Option<StoredEstimate>,
    free_slope: Option<StoredEstimate>,
    intercept: Option<StoredEstimate>,
    speed: Option<[f64; 2]>,
    own_answer: Option<(Field, String, f64)>,
    rows: Vec<StoredRow>,
    flags: Vec<StoredFlag>,
    comparisons: Vec<StoredComparison>,
}

/// Value, standard error, degrees of freedom.
type StoredEstimate = (f64, f64, usize);

#[derive(Debug, Serialize, Deserialize)]
struct StoredRow {
    label: String,
    left_out: bool,
    frequency: Option<f64>,
    wavelength: Option<f64>,
    reciprocal: Option<f64>,
    speed: Option<f64>,
    expected_speed: Option<f64>,
    resolution: f64,
    repeats: Option<usize>,
    anomalous: bool,
}

#[derive(Debug, Serialize, Deserialize)]
struct StoredFlag {
    row: Option<usize>,
    step: Field,
    slip: String,
    given: String,
    expected: String,
    rival: Option<String>,
    arithmetic: Sum,
}

#[derive(Debug, Serialize, Deserialize)]
struct StoredComparison {
    row: Option<usize>,
    field: Field,
    given: Option<String>,
    follows: Option<String>,
    arithmetic: Sum,
    agrees: Option<bool>,
}

impl StoredAssessment {
    pub(crate) fn of(assessment: &Assessment) -> Self {
        let free = assessment.free_fit.as_ref();
        Self {
            magnification: assessment.magnification,
            mean_speed: assessment.mean_speed.map(estimate),
            slope: assessment.through_origin.map(|line| estimate(line.slope)),
            free_slope: free.map(|line| estimate(line.slope)),
            intercept: free.and_then(|line| line.intercept).map(estimate),
            speed: assessment
                .speed
                .map(|s| [s.value, s.expected.unwrap_or_default()]),
            own_answer: assessment
                .own_answer
                .as_ref()
                .map(|own| (own.field, own.text.clone(), own.value)),
            rows: assessment.rows.iter().map(row).collect(),
            flags: assessment.flags.iter().map(flag).collect(),
            comparisons: assessment.comparisons.iter().map(comparison).collect(),
        }
    }
}

fn estimate(estimate: Estimate) -> StoredEstimate {
    (estimate.value, estimate.se, estimate.df)
}

fn row(row: &RowResult) -> StoredRow {
    StoredRow {
        label: row.label.clone(),
        left_out: row.left_out,
        frequency: row.frequency,
        wavelength: row.wavelength,
        reciprocal: row.reciprocal,
        speed: row.speed,
        expected_speed: row.expected_speed,
        resolution: row.wavelength_resolution,
        repeats: row.repeats,
        anomalous: row.standing == Standing::Anomalous,
    }
}

fn flag(flag: &Flag) -> StoredFlag {
    StoredFlag {
        row: flag.row,
        step: flag.step,
        slip: flag.slip.code().to_owned(),
        given: flag.given.clone(),
        expected: flag.expected.clone(),
        rival: flag.rival.map(|slip| slip.code().to_owned()),
        arithmetic: flag.arithmetic.clone(),
    }
}

fn comparison(comparison: &Comparison) -> StoredComparison {
    StoredComparison {
        row: comparison.row,
        field: comparison.field,
        given: comparison.given.clone(),
        follows: comparison.follows.clone(),
        arithmetic: comparison.arithmetic.clone(),
        agrees: match comparison.verdict {
            Verdict::Right => Some(true),
            Verdict::Wrong => Some(false),
            Verdict::Unjudged => None,
        },
    }
}
