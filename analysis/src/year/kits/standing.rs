//! One kit against the level of its kind.

use std::collections::BTreeMap;
use std::f64::consts::FRAC_PI_2;

use super::fingerprint::{self, Fault, Fingerprint};
use super::level::{self, Level};
use super::{Aside, Kind, KitYear, Standing, counted, sheets_of};
use crate::interval::Interval;
use crate::reading::Cause;
use crate::slip;
use crate::stats::interval::student_t_quantile;
use crate::stats::robust::{Robust, algorithm_a};
use crate::stats::spread;
use crate::year::share::Share;
use crate::year::{Estimated, Made, Year};

/// Standard errors from which on a kit may be off, and from which on it is
/// said to be: the two- and three-sigma lines. Single sheets and lessons are
/// marked there too.
pub(super) const LINES: [f64; 2] = [2.0, 3.0];

/// What is less than this off is not worth a technician's afternoon, however
/// sure. Our choice.
const LEAST: f64 = 0.02;

/// Standard errors from which on a shape is told of a kit whose level agrees:
/// more than for a level, since several shapes are tried. Our choice.
const BENDS_FROM: f64 = 4.0;

/// Ends that differ by less are not told either. Our choice.
const LEAST_BEND: f64 = 0.04;

pub(super) fn judge(year: &Year, kit: usize, level: &Level, asides: &[Aside]) -> KitYear {
    let all = sheets_of(year, kit);
    let count = |aside: Aside| all.iter().filter(|(at, _)| asides[*at] == aside).count();
    let sheets = counted(year, kit, asides);
    let lessons = level::lessons(year, &sheets);
    let values: Vec<f64> = sheets.iter().map(|(_, value)| *value).collect();
    let mut found = KitYear {
        kind: level.kind,
        sheets: sheets.len(),
        slipped: count(Aside::Slipped),
        on_dial: count(Aside::OnDial),
        lessons: lessons.len(),
        median: spread::median(&values).map(f64::exp),
        median_range: spread::median_interval95(&values).map(|of_logs| Interval {
            low: of_logs.low.exp(),
            high: of_logs.high.exp(),
        }),
        ratio: None,
        off: None,
        sigmas: None,
        standing: Standing::TooFew,
        same_side: Share::default(),
        beside: Share::default(),
        confirmed: confirmed(year, kit),
        looks_like: None,
    };
    let (Some(sd), Some(mean)) = (level.sd, algorithm_a(&values)) else {
        return found;
    };
    let se = Robust { sd, ..mean }.standard_uncertainty();
    let against = se.hypot(level.reference_se);
    let off = mean.mean - level.reference;
    let t = student_t_quantile(0.975, level.df).unwrap_or(f64::NAN);
    found.ratio = Estimated::of_log(mean.mean, t * se);
    found.off = Estimated::of_log(off, t * against).map(|ratio| ratio.less(1.0));
    if !level::is_enough(year, &sheets) {
        return found;
    }
    found.sigmas = Some(off / against);
    found.same_side = same_side(year, &sheets, level, off);
    found.standing = match (off / against).abs() {
        _ if off.abs() < LEAST.ln_1p() => Standing::Agrees,
        sigmas if sigmas > LINES[1] => Standing::Reads,
        sigmas if sigmas > LINES[0] => Standing::May,
        _ => Standing::Agrees,
    };
    let fingerprint = fingerprint::of(year, &sheets, level, mean.mean);
    let bends = |bent: &Fingerprint| bends(bent) && is_borne(year, &sheets, level, mean.mean);
    if found.standing != Standing::Reads && fingerprint.as_ref().is_some_and(bends) {
        found.standing = Standing::Bends;
    }
    if found.standing != Standing::Agrees {
        found.looks_like = fingerprint;
    }
    if level.kind == Kind::Generator {
        found.beside = beside(year, &sheets, level, off);
        if let (false, Some(looks)) = (found.is_dial(), &mut found.looks_like) {
            looks.faults.push(Fault::Beside);
        }
    }
    found
}

/// Whether a kit whose level is hardly off is off at one end of its
/// frequencies.
fn bends(fingerprint: &Fingerprint) -> bool {
    fingerprint.sigmas > BENDS_FROM && ends_differ(fingerprint)
}

/// Whether every lesson but one still says so, whichever is left out: a slip
/// in one group's readings that nobody has looked at bends a sheet as a kit
/// would, but no other day's.
fn is_borne(year: &Year, sheets: &[(usize, f64)], level: &Level, mean: f64) -> bool {
    level::lessons(year, sheets).into_iter().all(|left_out| {
        let others = sheets
            .iter()
            .filter(|(at, _)| year.sheets[*at].lesson != left_out);
        let others: Vec<(usize, f64)> = others.copied().collect();
        let fingerprint = fingerprint::of(year, &others, level, mean);
        fingerprint.is_some_and(|shape| shape.sigmas > LINES[0] && ends_differ(&shape))
    })
}

fn ends_differ(fingerprint: &Fingerprint) -> bool {
    let [lowest, highest] = fingerprint.ends;
    (lowest.off - highest.off).abs() >= LEAST_BEND
}

/// The faults of the apparatus that people confirmed on a kit's sheets.
fn confirmed(year: &Year, kit: usize) -> Vec<(Cause, usize)> {
    let sheets = year.sheets.iter().filter(|sheet| sheet.kits.contains(&kit));
    let mut counts: BTreeMap<Cause, usize> = BTreeMap::new();
    for made in sheets.flat_map(|sheet| &sheet.made) {
        if let Made::Confirmed(cause) = made
            && cause.kind() == slip::Kind::Apparatus
        {
            *counts.entry(*cause).or_default() += 1;
        }
    }
    counts.into_iter().collect()
}

/// A kit's sheets of one lesson together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LessonLevel {
    /// Which lesson.
    pub lesson: usize,
    /// Sheets that count.
    pub sheets: usize,
    /// Median of their values, ln(speed/expected).
    pub median: f64,
    /// How many standard errors of the median of so many sheets it is from the
    /// reference.
    pub sigmas: Option<f64>,
}

impl LessonLevel {
    /// Counts the lines that it is beyond: none, that of two standard errors,
    /// or that of three too.
    #[must_use]
    pub fn lines_passed(&self) -> usize {
        let sigmas = self.sigmas.map_or(0.0, f64::abs);
        LINES.iter().filter(|line| sigmas > **line).count()
    }
}

/// Compares a kit's lessons with its level, by date.
pub(super) fn lesson_levels(
    year: &Year,
    sheets: &[(usize, f64)],
    level: &Level,
) -> Vec<LessonLevel> {
    let lessons = level::lessons(year, sheets).into_iter();
    lessons
        .filter_map(|lesson| {
            let in_lesson = sheets
                .iter()
                .filter(|(at, _)| year.sheets[*at].lesson == lesson);
            let values: Vec<f64> = in_lesson.map(|(_, value)| *value).collect();
            let median = spread::median(&values)?;
            let se = median_se(level, values.len());
            Some(LessonLevel {
                lesson,
                sheets: values.len(),
                median,
                sigmas: se.map(|se| (median - level.reference) / se),
            })
        })
        .collect()
}

fn same_side(year: &Year, sheets: &[(usize, f64)], level: &Level, off: f64) -> Share {
    let mut same = Share::default();
    for lesson in lesson_levels(year, sheets, level) {
        same.add((lesson.median - level.reference) * off > 0.0);
    }
    same
}

/// The strings and tanks that a generator's sheets name, and on how many of
/// them it is clearly off to the same side.
fn beside(year: &Year, sheets: &[(usize, f64)], level: &Level, off: f64) -> Share {
    let others = (0..year.kits.len()).filter(|kit| year.kits[*kit] != Kind::Generator);
    let mut same = Share::default();
    for other in others {
        let beside_it = sheets
            .iter()
            .filter(|(at, _)| year.sheets[*at].kits.contains(&other));
        let values: Vec<f64> = beside_it.map(|(_, value)| *value).collect();
        if let Some((median, se)) = spread::median(&values).zip(median_se(level, values.len())) {
            let sigmas = (median - level.reference) / se.hypot(level.reference_se);
            same.add(sigmas * off.signum() >= LINES[0]);
        }
    }
    same
}

/// The standard error of the median of so many sheets, by the scatter that all
/// kits share: √(π/2) times that of a mean, which it is of one or two.
fn median_se(level: &Level, n: usize) -> Option<f64> {
    let widened_by = if n > 2 { FRAC_PI_2.sqrt() } else { 1.0 };
    Some(widened_by * level.sd? / (n as f64).sqrt())
}
