//! Classes (or teachers) compared as laboratories are: each with its own
//! mean, its own spread, and the scatter that all have in common.

use serde::{Deserialize, Serialize};

use super::share::Share;
use super::{Estimated, Lesson, Year, YearSheet};
use crate::method::Method;
use crate::stats::consistency::{
    mandel_h, mandel_h_critical, mandel_k, mandel_k_critical_unequal, precision,
};
use crate::stats::interval::Estimate;
use crate::stats::{outlier, spread};

/// Chances at which h and k are marked: where ISO 5725-2 speaks of a
/// straggler and of an outlier.
const LINES: [f64; 2] = [0.05, 0.01];

/// Groups up to which a class is said to say little. Our choice: three groups
/// that scatter by 8 % know their mean to 9 % at best.
pub const FEW_GROUPS: usize = 3;

/// Groups from which on a class has an h: with those that have half as many
/// groups as is usual, since the lines of h suppose means that are about
/// equally sure. Our choice.
const FEWEST_FOR_H: usize = 3;

/// Classes from which on there is an h. Of three the line of 1 % lies within
/// a thousandth of the most that h can be. Our choice.
const FEWEST_CELLS_FOR_H: usize = 4;

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
    /// Standard deviation between its groups, of ln(speed/expected).
    pub sd: Option<f64>,
    /// Mandel's h: how far its mean is from the others'; `None` where it or
    /// the others have too few groups.
    pub h: Option<f64>,
    /// Mandel's k: how its scatter compares with that of all.
    pub k: Option<f64>,
    /// Where k is marked: at 5 % and at 1 %, for so many groups.
    pub k_lines: Option<[f64; 2]>,
    /// Marks ÷ full marks of the groups that are marked on every point.
    pub marks: Option<Marks>,
}

/// What the classes (or teachers) of one method have in common.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Together {
    /// Those with two groups or more that count.
    pub cells: usize,
    /// Repeatability: standard deviation of groups about the mean of their
    /// own class, of ln(speed/expected).
    pub repeatability: f64,
    /// Reproducibility: the same of groups of any class.
    pub reproducibility: f64,
    /// Where h is marked: at 5 % and at 1 %.
    pub h_lines: Option<[f64; 2]>,
}

/// How marks are spread: as shares of full marks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Marks {
    /// Groups.
    pub groups: usize,
    /// Their mean, with its 95 % interval; `None` with one group.
    pub mean: Option<Estimated>,
    /// Least, lower quartile, median, upper quartile, most.
    pub quartiles: [f64; 5],
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
    let among: Vec<usize> = (0..values.len())
        .filter(|at| values[*at].len() > 1)
        .collect();
    let compared: Vec<Vec<f64>> = among.iter().map(|at| values[*at].clone()).collect();
    let groups: Vec<&[f64]> = compared.iter().map(Vec::as_slice).collect();
    let sd = spread::pooled_sd(&groups)?;
    let df = compared.iter().map(|groups| groups.len() - 1).sum();
    for (cell, own) in cells.iter_mut().zip(values) {
        place(cell, own, values, sd, df);
    }
    let precision = precision(&compared)?;
    let k = mandel_k(&compared);
    for (index, at) in among.iter().enumerate() {
        let cell = &mut cells[*at];
        cell.k = k.as_ref().and_then(|k| k[index]);
        let own = compared[index].len() - 1;
        cell.k_lines = lines(|alpha| mandel_k_critical_unequal(own, df, alpha));
    }
    Some(Together {
        cells: precision.cells,
        repeatability: precision.repeatability_sd,
        reproducibility: precision.reproducibility_sd,
        h_lines: levels(cells, values, &among),
    })
}

/// Works out Mandel's h of the cells that have about as many groups as is
/// usual, and where it is marked.
fn levels(cells: &mut [Cell], values: &[Vec<f64>], among: &[usize]) -> Option<[f64; 2]> {
    let sizes: Vec<f64> = among.iter().map(|at| values[*at].len() as f64).collect();
    let usual = spread::median(&sizes)?;
    let is_enough = |at: &usize| {
        let groups = values[*at].len();
        groups >= FEWEST_FOR_H && groups as f64 >= usual / 2.0
    };
    let among: Vec<usize> = among.iter().copied().filter(is_enough).collect();
    if among.len() < FEWEST_CELLS_FOR_H {
        return None;
    }
    let compared: Vec<Vec<f64>> = among.iter().map(|at| values[*at].clone()).collect();
    for (at, h) in among.iter().zip(mandel_h(&compared)?) {
        cells[*at].h = Some(h);
    }
    lines(|alpha| mandel_h_critical(among.len(), alpha))
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

fn lines(at: impl Fn(f64) -> Option<f64>) -> Option<[f64; 2]> {
    let [five, one] = LINES.map(at);
    Some([five?, one?])
}

impl Marks {
    fn of(marks: &[f64]) -> Option<Self> {
        let mut sorted = marks.to_vec();
        sorted.sort_by(f64::total_cmp);
        let mean = spread::mean_estimate(&sorted)?;
        let interval = mean.interval95().map(|interval| Estimated {
            value: mean.value,
            low: interval.low,
            high: interval.high,
        });
        Some(Self {
            groups: sorted.len(),
            mean: interval,
            quartiles: [0.0, 0.25, 0.5, 0.75, 1.0].map(|share| quantile(&sorted, share)),
        })
    }
}

/// The value below which a share of some sorted values lies, straight between
/// the two nearest (Hyndman and Fan (1996), *The American Statistician* 50,
/// 361-365, definition 7).
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let at = share * (sorted.len() - 1) as f64;
    let below = at.floor();
    let index = |place: f64| {
        let last = sorted.len() - 1;
        (0..=last).find(|i| *i as f64 >= place).unwrap_or(last)
    };
    let (low, high) = (sorted[index(below)], sorted[index(at.ceil())]);
    low + (at - below) * (high - low)
}
