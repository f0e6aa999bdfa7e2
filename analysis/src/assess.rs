//! A whole sheet: every figure recomputed from the readings, the rows that do
//! not belong with the others, and what the group's working shows.

use crate::field::Field;
use crate::interval::Interval;
use crate::sheet::{Entries, Row, Sheet};
use crate::stats::interval::Estimate;
use crate::stats::{line, outlier, spread};
use crate::unit::Unit;
use crate::working::chain::{Chain, View};
use crate::working::{self, Comparison, Flag};

/// Rows this unlikely among clean ones (5 % for the whole sheet) do not
/// belong with the others.
const ANOMALOUS: f64 = 0.05;

/// Up to here the most extreme row is worth a mention.
const MENTIONED: f64 = 0.20;

/// Whether a row belongs with the others of its sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It does, or there are too few rows to tell.
    Belongs,
    /// If one row is odd, it is this one (between 5 % and 20 % for the whole
    /// sheet).
    Mentioned,
    /// It does not (below 5 % for the whole sheet).
    Anomalous,
}

/// One row, recomputed from its readings. A figure is `None` where a reading
/// that it needs is missing.
#[derive(Clone, Debug, PartialEq)]
pub struct RowResult {
    /// The row's number as the group wrote it.
    pub label: String,
    /// Whether the group left it out.
    pub left_out: bool,
    /// f, in Hz.
    pub frequency: Option<f64>,
    /// λ on the water or along the string, in m.
    pub wavelength: Option<f64>,
    /// 1/λ, in 1/m.
    pub reciprocal: Option<f64>,
    /// v = f λ, in m/s.
    pub speed: Option<f64>,
    /// What the apparatus should give at this frequency, in m/s.
    pub expected_speed: Option<f64>,
    /// The standard uncertainty of λ from the resolution of the readings, as
    /// a share of it.
    pub wavelength_resolution: f64,
    /// Index of the first row with the same frequency, where this row repeats
    /// it.
    pub repeats: Option<usize>,
    /// Whether it belongs with the others.
    pub standing: Standing,
}

coded! {
    /// How the speed of a sheet was found.
    pub enum SpeedBy {
        /// The gradient through the origin over two rows or more.
        Gradient = "gradient",
        /// The one row there is.
        Single = "single",
    }
}

/// The speed that a sheet stands for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetSpeed {
    /// In m/s.
    pub value: f64,
    /// Its 95 % interval by Student's t; `None` for one row.
    pub interval: Option<Interval>,
    /// How it was found.
    pub by: SpeedBy,
    /// The same recipe on the expected curve at the sheet's own frequencies,
    /// in m/s; `None` where nothing is known of the apparatus.
    pub expected: Option<f64>,
}

/// The group's own answer.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnAnswer {
    /// Whether it is their gradient or their mean.
    pub field: Field,
    /// The figure as typed.
    pub text: String,
    /// The unit as given; `None` where it was left blank.
    pub unit: Option<Unit>,
    /// In m/s, read in the heading's unit where it has none.
    pub value: f64,
}

/// Everything that one sheet says.
#[derive(Clone, Debug, PartialEq)]
pub struct Assessment {
    /// Image ÷ true; `None` where neither was given or one is missing.
    pub magnification: Option<f64>,
    /// The rows, in the order of the page.
    pub rows: Vec<RowResult>,
    /// Mean of v over the rows not left out, in m/s.
    pub mean_speed: Option<Estimate>,
    /// The line f = v/λ through the origin, slope in m/s.
    pub through_origin: Option<line::Line>,
    /// The line with an intercept: slope in m/s, intercept in Hz.
    pub free_fit: Option<line::Line>,
    /// The speed that the sheet stands for.
    pub speed: Option<SheetSpeed>,
    /// The same without the rows found anomalous; `None` where there are
    /// none.
    pub speed_without_anomalies: Option<SheetSpeed>,
    /// The group's gradient if it gave one, else its mean.
    pub own_answer: Option<OwnAnswer>,
    /// Slips and remarks, in the order of the work.
    pub flags: Vec<Flag>,
    /// The working, theirs beside ours.
    pub comparisons: Vec<Comparison>,
}

impl Assessment {
    /// The rows that the sheet's speed rests on, as (1/λ in 1/m, f in Hz).
    #[must_use]
    pub fn points(&self) -> Vec<(f64, f64)> {
        self.rows
            .iter()
            .filter(|row| !row.left_out)
            .filter_map(RowResult::point)
            .collect()
    }

    /// ln(speed/expected), for comparing groups whose frequencies, depths or
    /// tensions differ; `None` where no expected speed is known.
    #[must_use]
    pub fn log_ratio(&self) -> Option<f64> {
        let speed = self.speed?;
        Some((speed.value / speed.expected?).ln())
    }
}

impl RowResult {
    /// The point of a graph of f (Hz) against 1/λ (1/m).
    #[must_use]
    pub fn point(&self) -> Option<(f64, f64)> {
        Some((self.reciprocal?, self.frequency?))
    }
}

/// Recomputes and judges a sheet.
///
/// # Example
/// ```
/// use analysis::{assess::assess, field::Field, method::Method};
/// use analysis::sheet::{Cell, Sheet, TypedRow, TypedSheet};
/// let cell = |text: &str, unit: &str| Cell { text: text.into(), unit: unit.into() };
/// let row = TypedRow {
///     label: "1".into(),
///     cells: [
///         (Field::Dial, cell("30", "")),
///         (Field::Length, cell("1.20", "m")),
///         (Field::LengthLoops, cell("3", "")),
///         (Field::Wavelength, cell("0.40", "m")), // one loop: should be 0.80 m
///     ].into(),
///     left_out: false,
/// };
/// let typed = TypedSheet { method: Method::StringLoops, whole: [].into(), rows: vec![row] };
/// let assessment = assess(&Sheet::check(&typed).expect("readable"));
/// assert_eq!(assessment.flags[0].slip.code(), "loop-taken-as-wavelength");
/// assert!((assessment.speed.expect("one row").value - 24.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn assess(sheet: &Sheet) -> Assessment {
    let chain = Chain::new(sheet);
    let mut rows: Vec<_> = sheet
        .rows
        .iter()
        .enumerate()
        .map(|(at, row)| recompute(&chain, at, row))
        .collect();
    mark_repeats(&mut rows);
    mark_anomalies(sheet, &mut rows);
    let anomalous: Vec<_> = rows
        .iter()
        .map(|row| row.result.standing == Standing::Anomalous)
        .collect();
    let judgement = working::judge(sheet, &anomalous);
    let kept: Vec<_> = rows.iter().filter(|row| !row.result.left_out).collect();
    let points: Vec<_> = kept.iter().filter_map(|row| row.point).collect();
    let speeds: Vec<_> = kept.iter().filter_map(|row| row.result.speed).collect();
    let through_origin = line::through_origin(&points);
    Assessment {
        magnification: chain
            .figure(0, Field::Magnification, &View::OURS)
            .map(Interval::mid),
        mean_speed: spread::mean_estimate(&speeds),
        speed: through_origin.as_ref().map(|line| sheet_speed(line, &kept)),
        speed_without_anomalies: without_anomalies(&kept),
        through_origin,
        free_fit: line::with_intercept(&points),
        own_answer: own_answer(&sheet.whole),
        rows: rows.into_iter().map(|row| row.result).collect(),
        flags: judgement.flags,
        comparisons: judgement.comparisons,
    }
}

/// A row with what its method compares it by.
struct Worked {
    result: RowResult,
    /// What it was set to (a frequency in Hz).
    set: Option<f64>,
    /// Its point in the graph whose gradient is the speed.
    point: Option<(f64, f64)>,
}

fn recompute(chain: &Chain<'_>, at: usize, row: &Row) -> Worked {
    let ours = |field| chain.figure(at, field, &View::OURS).map(Interval::mid);
    let sheet = chain.sheet;
    let spec = sheet.method.spec();
    let [along, up] = spec.graph.map(ours);
    let set = ours(spec.set_by);
    let result = RowResult {
        label: row.label.clone(),
        left_out: row.left_out,
        frequency: ours(Field::Frequency),
        wavelength: ours(Field::Wavelength),
        reciprocal: ours(Field::Reciprocal),
        speed: ours(Field::Speed),
        expected_speed: set.and_then(|set| sheet.expected_speed(set)),
        wavelength_resolution: rounding(&row.entries, &[spec.length]).hypot(rounding(
            &sheet.whole,
            &[Field::ScaleImage, Field::ScaleTrue],
        )),
        repeats: None,
        standing: Standing::Belongs,
    };
    Worked {
        result,
        set,
        point: along.zip(up),
    }
}

/// The standard uncertainty of a product of readings, as a share of it, from
/// their last digits.
fn rounding(entries: &Entries, fields: &[Field]) -> f64 {
    let of_fields = fields.iter().filter_map(|field| entries.get(*field));
    let squares: f64 = of_fields.map(|entry| entry.rounding().powi(2)).sum();
    squares.sqrt()
}

/// A row repeats an earlier one when it is set to the same to a part in a
/// thousand million: typed alike, however it was multiplied out.
fn mark_repeats(rows: &mut [Worked]) {
    for at in 1..rows.len() {
        let Some(f) = rows[at].set else {
            continue;
        };
        let same = |row: &Worked| row.set.is_some_and(|g| (f - g).abs() <= 1e-9 * f.abs());
        rows[at].result.repeats = rows[..at].iter().position(same);
    }
}

/// Externally studentised residuals of ln v about the sheet's own level
/// (string) or about the curve scaled to the sheet (water), with a floor at
/// the readings' own resolution: rows that differ by no more than their
/// rounding are no anomalies.
fn mark_anomalies(sheet: &Sheet, rows: &mut [Worked]) {
    let judged: Vec<_> = rows
        .iter()
        .enumerate()
        .filter(|(_, row)| !row.result.left_out)
        .filter_map(|(at, row)| Some((at, row.set?, row.result.speed?)))
        .collect();
    // The scale's resolution is the same for all rows: it parts none of them.
    let length = [sheet.method.length()];
    let resolution = |at: usize| rounding(&sheet.rows[at].entries, &length);
    let floors: Vec<_> = judged.iter().map(|(at, ..)| resolution(*at)).collect();
    let points: Vec<_> = judged.iter().map(|(_, f, v)| (*f, *v)).collect();
    let Some(floor) = spread::mean(&floors) else {
        return;
    };
    let levels = sheet.method.model().levels(&sheet.whole, &points);
    let Some(studentised) = outlier::studentised_with_floor(&levels, floor) else {
        return;
    };
    let least = studentised
        .iter()
        .map(|s| s.bonferroni_p)
        .fold(1.0, f64::min);
    for ((at, ..), row) in judged.iter().zip(&studentised) {
        if row.bonferroni_p < ANOMALOUS {
            rows[*at].result.standing = Standing::Anomalous;
        } else if row.bonferroni_p < MENTIONED && row.bonferroni_p <= least {
            rows[*at].result.standing = Standing::Mentioned;
        }
    }
}

fn sheet_speed(line: &line::Line, kept: &[&Worked]) -> SheetSpeed {
    let by = if line.df == 0 {
        SpeedBy::Single
    } else {
        SpeedBy::Gradient
    };
    SheetSpeed {
        value: line.slope.value,
        interval: line.slope.interval95(),
        by,
        expected: expected(kept),
    }
}

fn without_anomalies(kept: &[&Worked]) -> Option<SheetSpeed> {
    let belong = |row: &&&Worked| row.result.standing != Standing::Anomalous;
    let rest: Vec<_> = kept.iter().filter(belong).copied().collect();
    if rest.len() == kept.len() {
        return None;
    }
    let points: Vec<_> = rest.iter().filter_map(|row| row.point).collect();
    Some(sheet_speed(&line::through_origin(&points)?, &rest))
}

/// The gradient through the origin of the expected curve at the rows' own
/// frequencies.
fn expected(kept: &[&Worked]) -> Option<f64> {
    let points: Option<Vec<_>> = kept
        .iter()
        .filter_map(|row| Some((row.point?, row.result.expected_speed)))
        .map(|((_, up), expected)| Some((up / expected?, up)))
        .collect();
    line::through_origin(&points?).map(|line| line.slope.value)
}

fn own_answer(whole: &Entries) -> Option<OwnAnswer> {
    [Field::Gradient, Field::MeanSpeed]
        .into_iter()
        .find_map(|field| {
            let entry = whole.get(field)?;
            Some(OwnAnswer {
                field,
                text: entry.figure.text().trim().to_owned(),
                unit: entry.unit,
                value: entry.si(),
            })
        })
}
