//! Classes (or teachers) compared as laboratories are: each with its own
//! mean, its own spread, and the scatter that all have in common.

use serde::{Deserialize, Serialize};

use super::share::Share;
use super::{Estimated, Lesson, Year, YearSheet};
use crate::method::Method;
use crate::stats::interval::Estimate;
use crate::stats::precision::precision;
use crate::stats::{outlier, spread};

/// Groups up to which a class is said to say little. Our choice: three groups
/// that scatter by 8 % know their mean to 9 % at best.
pub const FEW_GROUPS: usize = 3;

/// The classes (or teachers) of one method.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cells {
    /// The method.
    pub method: Method,
    /// One for each class (or teacher), in the order of the year; those that
    /// never did the method are empty.
    pub cells: Vec<Cell>,
    /// What they have in common.
    pub together: Option<Together>,
}

/// One class (or teacher) with one method.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Cell {
    /// Lessons.
    pub lessons: usize,
    /// Groups that handed in, of those that there were.
    pub handed_in: Share,
    /// Of those that handed in, groups with two rows or more and an answer
    /// of their own.
    pub complete: Share,
    /// Groups whose speed counts.
    pub counted: usize,
    /// Groups that do not belong with their lesson, and are left aside.
    pub left_aside: usize,
    /// Groups with a confirmed slip in their readings, taken out.
    pub slipped: usize,
    /// Median of their speeds, m/s.
    pub speed: Option<f64>,
    /// Mean of speed ÷ expected speed (of its logarithm), with its 95 %
    /// interval from the scatter that all have in common.
    pub ratio: Option<Estimated>,
    /// The same against the mean of all others: 0.03 for 3 % above.
    pub against_others: Option<Estimated>,
    /// Whether its mean stands apart from those of the others, by the rule for
    /// groups in a class: where all are alike, any does in 5 % of years at
    /// most. `None` where it or the others have too few groups, and with fewer
    /// than four to compare.
    pub stands_apart: Option<bool>,
    /// Standard deviation between its groups, of ln(speed/expected).
    pub sd: Option<f64>,
    /// Marks ÷ full marks of the groups that are marked on every point.
    pub marks: Option<Marks>,
}

/// What the classes (or teachers) of one method have in common.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Together {
    /// Repeatability: standard deviation of groups about the mean of their
    /// own class, of ln(speed/expected).
    pub repeatability: f64,
    /// Reproducibility: the same of groups of any class.
    pub reproducibility: f64,
}

/// Marks as shares of full marks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Marks {
    /// Groups.
    pub groups: usize,
    /// Their mean, with its 95 % interval; `None` with one group.
    pub mean: Option<Estimated>,
}

/// Compares a year's classes, or whatever else `of` makes of a lesson.
pub(super) fn compare(year: &Year, count: usize, of: impl Fn(&Lesson) -> usize) -> Vec<Cells> {
    let methods = Method::ALL.into_iter();
    methods
        .filter(|method| year.lessons.iter().any(|lesson| lesson.method == *method))
        .map(|method| one_method(year, method, count, &of))
        .collect()
}

fn one_method(year: &Year, method: Method, count: usize, of: &dyn Fn(&Lesson) -> usize) -> Cells {
    let mut cells = vec![Cell::default(); count];
    let mut sheets: Vec<Vec<&YearSheet>> = vec![Vec::new(); count];
    let mut values: Vec<Vec<f64>> = vec![Vec::new(); count];
    let mut by_lesson: Vec<Vec<&YearSheet>> = vec![Vec::new(); year.lessons.len()];
    for sheet in &year.sheets {
        by_lesson[sheet.lesson].push(sheet);
    }
    let lessons = year.lessons.iter().zip(&by_lesson);
    for (lesson, in_it) in lessons.filter(|(lesson, _)| lesson.method == method) {
        let at = of(lesson);
        let cell = &mut cells[at];
        cell.lessons += 1;
        cell.handed_in = cell.handed_in.and(Share {
            made: in_it.len(),
            of: lesson.groups,
        });
        cell.slipped += in_it.iter().filter(|sheet| sheet.is_slipped).count();
        let (belonging, left_aside) = belonging(in_it);
        cell.left_aside += left_aside;
        values[at].extend(belonging);
        sheets[at].extend(in_it);
    }
    for (cell, sheets) in cells.iter_mut().zip(&sheets) {
        describe(cell, sheets);
    }
    let together = together(&mut cells, &values);
    Cells {
        method,
        cells,
        together,
    }
}

/// ln(speed/expected) of the groups of a lesson that belong with it, and how
/// many do not: as the class summary tells them, but without those that a
/// person found to have slipped.
fn belonging(sheets: &[&YearSheet]) -> (Vec<f64>, usize) {
    let ratios = sheets
        .iter()
        .filter(|sheet| !sheet.is_slipped)
        .filter_map(|sheet| sheet.judgement.log_ratio());
    let ratios: Vec<f64> = ratios.collect();
    let outlying = outlier::outlying(&ratios);
    let kept = ratios
        .iter()
        .zip(&outlying)
        .filter(|(_, outlying)| !**outlying);
    let kept: Vec<f64> = kept.map(|(ratio, _)| *ratio).collect();
    let left_aside = ratios.len() - kept.len();
    (kept, left_aside)
}

fn describe(cell: &mut Cell, sheets: &[&YearSheet]) {
    for sheet in sheets {
        let judgement = &sheet.judgement;
        let is_line = judgement.uncertainty.is_some();
        cell.complete.add(is_line && judgement.has_answer);
    }
    let speeds: Vec<f64> = sheets.iter().filter_map(|s| s.judgement.speed).collect();
    cell.speed = spread::median(&speeds);
    let marks: Vec<f64> = sheets.iter().filter_map(|sheet| sheet.mark).collect();
    cell.marks = Marks::of(&marks);
}

/// Works out what the cells with two groups or more have in common, and how
/// each stands among them.
fn together(cells: &mut [Cell], values: &[Vec<f64>]) -> Option<Together> {
    for (cell, values) in cells.iter_mut().zip(values) {
        cell.counted = values.len();
        cell.sd = spread::sample_sd(values);
    }
    let compared = values.iter().filter(|groups| groups.len() > 1);
    let compared: Vec<Vec<f64>> = compared.cloned().collect();
    let groups: Vec<&[f64]> = compared.iter().map(Vec::as_slice).collect();
    let sd = spread::pooled_sd(&groups)?;
    let df = compared.iter().map(|groups| groups.len() - 1).sum();
    for (cell, own) in cells.iter_mut().zip(values) {
        place(cell, own, values, sd, df);
    }
    stand_apart(cells, values);
    let precision = precision(&compared)?;
    Some(Together {
        repeatability: precision.repeatability_sd,
        reproducibility: precision.reproducibility_sd,
    })
}

/// Finds the cells whose means stand apart, among those that have more than a
/// few groups and half as many as is usual: means of fewer scatter more.
fn stand_apart(cells: &mut [Cell], values: &[Vec<f64>]) {
    let sizes = values.iter().map(|groups| groups.len() as f64);
    let sizes: Vec<f64> = sizes.filter(|size| *size > 1.0).collect();
    let usual = spread::median(&sizes).unwrap_or(0.0);
    let is_enough =
        |groups: &[f64]| groups.len() > FEW_GROUPS && groups.len() as f64 >= usual / 2.0;
    let among = values.iter().enumerate();
    let among = among.filter(|(_, groups)| is_enough(groups));
    let among = among.filter_map(|(at, groups)| Some((at, spread::mean(groups)?)));
    let (among, means): (Vec<usize>, Vec<f64>) = among.unzip();
    if means.len() >= outlier::FEWEST {
        for (at, apart) in among.into_iter().zip(outlier::outlying(&means)) {
            cells[at].stands_apart = Some(apart);
        }
    }
}

/// A mean of few groups on the scatter that all classes share, and against
/// the mean of the groups of all others.
fn place(cell: &mut Cell, own: &[f64], all: &[Vec<f64>], sd: f64, df: usize) {
    let everything: Vec<f64> = all.concat();
    let (Some(mean), Some(general)) = (spread::mean(own), spread::mean(&everything)) else {
        return;
    };
    let (n, others) = (own.len() as f64, (everything.len() - own.len()) as f64);
    let with = |value, se| Estimate { value, se, df };
    cell.ratio = ratio(&with(mean, sd / n.sqrt()));
    if others > 0.0 {
        let of_others = (general * (n + others) - mean * n) / others;
        let se = sd * (1.0 / n + 1.0 / others).sqrt();
        cell.against_others = ratio(&with(mean - of_others, se)).map(|ratio| ratio.less(1.0));
    }
}

/// A logarithm's estimate as that of the ratio.
fn ratio(log: &Estimate) -> Option<Estimated> {
    let interval = log.interval95()?;
    Estimated::of_log(log.value, interval.width() / 2.0)
}

impl Marks {
    fn of(marks: &[f64]) -> Option<Self> {
        let mean = spread::mean_estimate(marks)?;
        let interval = mean.interval95().map(|interval| Estimated {
            value: mean.value,
            low: interval.low,
            high: interval.high,
        });
        Some(Self {
            groups: marks.len(),
            mean: interval,
        })
    }
}
