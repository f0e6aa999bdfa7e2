//! The inference's evidence against a sum over a dense grid.
//!
//! The engine takes the physics as linear and what is unknown as normal within
//! a few kernels. Here nothing is approximated but the sum itself: the priors
//! are those that `prior.rs` states, λ is found by bisection, surface tension,
//! depth, dial and the string's speed are summed on fine grids, and any one
//! row may be stray. Rates, of slips and of what is unexplained, are read as odds
//! against a sheet without either. Two slips at once are left out, and single
//! rows' slips that would move a row by more than [`MOST_MOVED`].

mod string;
mod water;

use analysis::reading::prior::{self, rate};
use analysis::reading::{Cause, Inference, Placed, infer};
use analysis::sheet::{Cell, Sheet, TypedSheet};
use rand::Rng;
use rand::rngs::StdRng;

/// How far ln odds may lie apart where they lie within [`REACH`].
///
/// Found on these sheets: 0.001 on strings, where the engine's form is exact;
/// 0.2 on most tanks; 0.28 at worst where the depth is known: a count begun at
/// one in rough readings, against which a depth written down wrong is the rival
/// (six wide kernels).
const TOLERANCE: f64 = 0.35;

/// Beyond, odds are only asked to be beyond too. (There they are those against
/// an unexplained sheet, and differ by how the priors are made to add up.)
const REACH: f64 = 6.0;

/// A row's slip that moves ln λ by more cannot have happened to these sheets.
const MOST_MOVED: f64 = 0.8;

/// A slip and its odds against none before anything was read.
#[derive(Clone, Debug)]
struct Slip {
    cause: Cause,
    row: Option<usize>,
    odds: f64,
    change: Change,
}

/// What was really so, where a reading says otherwise.
#[derive(Clone, Debug)]
enum Change {
    /// λ of each row is this many times the recorded.
    Lengths(Vec<f64>),
    /// f of each row is.
    Frequencies(Vec<f64>),
    /// Spans are too long by about this much, m.
    Zero(f64),
}

impl Slip {
    const fn new(cause: Cause, row: Option<usize>, odds: f64, change: Change) -> Self {
        Self {
            cause,
            row,
            odds,
            change,
        }
    }

    fn may_be(&self) -> bool {
        let (Change::Lengths(ratios) | Change::Frequencies(ratios)) = &self.change else {
            return true;
        };
        self.row
            .is_none_or(|row| ratios[row].ln().abs() < MOST_MOVED)
    }
}

/// The evidence found: of none (and unexplained), and of each slip.
#[derive(Debug, Default)]
struct Evidence {
    none: f64,
    unexplained: f64,
    slips: Vec<f64>,
}

impl Evidence {
    fn new(slips: &[Slip]) -> Self {
        Self {
            slips: vec![0.0; slips.len()],
            ..Self::default()
        }
    }

    fn of(&self, slips: &[Slip], cause: Cause, row: Option<usize>) -> f64 {
        let each = slips.iter().zip(&self.slips);
        each.filter(|(slip, _)| slip.cause == cause && slip.row == row)
            .map(|(slip, e)| slip.odds * e)
            .sum()
    }

    fn no_slip(&self) -> f64 {
        self.none + self.unexplained
    }

    fn probability_of_no_slip(&self, slips: &[Slip]) -> f64 {
        let each = slips.iter().zip(&self.slips);
        let all: f64 = each.map(|(slip, e)| slip.odds * e).sum();
        self.no_slip() / (self.no_slip() + all)
    }
}

fn engine(typed: &TypedSheet) -> Inference {
    let sheet = Sheet::check(typed).expect("a sheet that can be read");
    infer(&[Placed {
        sheet: &sheet,
        kit: "",
    }])
    .remove(0)
}

/// A slip that was found, with its ln odds against no slip.
#[derive(Debug)]
struct Compared {
    what: String,
    engine: f64,
    grid: f64,
}

impl Compared {
    /// Whether the engine is at most so much less sure, and at most
    /// [`TOLERANCE`] more.
    fn agrees(&self, less_sure: f64) -> bool {
        let apart = self.engine - self.grid;
        let are_beyond = self.engine.min(self.grid) > REACH;
        are_beyond || (-less_sure..TOLERANCE).contains(&apart)
    }
}

/// Every slip that the engine finds; faults of the apparatus are none.
fn compared(typed: &TypedSheet, slips: &[Slip], evidence: &Evidence) -> Vec<Compared> {
    let inference = engine(typed);
    let slips_alone = inference.findings.iter().filter_map(|finding| {
        let by_grid = |cause, row| evidence.of(slips, cause, row);
        let mut found = by_grid(finding.cause, finding.row);
        if let Some(twin) = finding.rival.filter(|_| finding.is_tie) {
            // A slip that looks like a fault of the apparatus is told with it.
            let of_twin = by_grid(twin.cause, twin.row);
            found = if of_twin > 0.0 { found + of_twin } else { 0.0 };
        }
        let is_slip = found > 0.0 && by_grid(finding.cause, finding.row) > 0.0;
        is_slip.then(|| Compared {
            what: format!("{:?} {:?}", finding.cause, finding.row),
            engine: (finding.probability / inference.no_slip).ln(),
            grid: (found / evidence.no_slip()).ln(),
        })
    });
    slips_alone.collect()
}

/// Checks that the engine's odds of each slip lie this near to the grid's, and
/// what it says of none; how many slips there were.
fn agree(name: &str, typed: &TypedSheet, slips: &[Slip], evidence: &Evidence, near: f64) -> usize {
    let all = compared(typed, slips, evidence);
    for each in &all {
        assert!(each.agrees(near), "{name}: {}: {each:?}", each.what);
    }
    let found = engine(typed).no_slip;
    let expected = evidence.probability_of_no_slip(slips);
    assert!(
        (found - expected).abs() < 0.05,
        "{name}: {found} {expected}"
    );
    all.len()
}

/// A figure as it is typed where the heading has its unit.
fn bare(text: String) -> Cell {
    Cell {
        text,
        unit: String::new(),
    }
}

/// Normal, mean 0 and standard deviation 1, or nearly.
fn normal(rng: &mut StdRng) -> f64 {
    (0..12).map(|_| rng.random::<f64>()).sum::<f64>() - 6.0
}

fn normal_density(x: f64, variance: f64) -> f64 {
    (-0.5 * x * x / variance).exp() / (std::f64::consts::TAU * variance).sqrt()
}

/// Midpoints of a range, with equal weights that add up to 1.
fn midpoints(low: f64, high: f64, number: u32) -> Vec<(f64, f64)> {
    let n = f64::from(number);
    let at = |i: u32| low + (high - low) * (f64::from(i) + 0.5) / n;
    (0..number).map(|i| (at(i), 1.0 / n)).collect()
}

/// Points of a normal to four standard deviations, with weights.
fn normal_points(mean: f64, sd: f64, number: u32) -> Vec<(f64, f64)> {
    let mut points = midpoints(mean - 4.0 * sd, mean + 4.0 * sd, number);
    for (x, weight) in &mut points {
        *weight = normal_density(*x - mean, sd * sd);
    }
    normalised(points)
}

fn normalised(mut points: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    let sum: f64 = points.iter().map(|(_, weight)| weight).sum();
    points.iter_mut().for_each(|(_, weight)| *weight /= sum);
    points
}

/// All scatters with their prior.
fn scatters() -> impl Iterator<Item = (f64, f64)> {
    prior::SCATTER.into_iter().zip(prior::SCATTER_PRIOR)
}

/// The density of rows about a level that is normal: one integral in closed
/// form, with any one row stray besides (but the one that slipped).
fn density(
    residuals: &[f64],
    variances: &[f64],
    level_variance: f64,
    slipped: Option<usize>,
) -> f64 {
    let of = |stray: Option<usize>| -> f64 {
        let (mut a, mut b, mut c, mut product) = (1.0 / level_variance, 0.0, 0.0, level_variance);
        for (at, (r, d)) in residuals.iter().zip(variances).enumerate() {
            let d = if stray == Some(at) {
                d + prior::STRAY_SD.powi(2)
            } else {
                *d
            };
            a += 1.0 / d;
            b += r / d;
            c += r * r / d;
            product *= std::f64::consts::TAU * d;
        }
        (-0.5 * (c - b * b / a)).exp() / (product * a).sqrt()
    };
    let strays = (0..residuals.len()).filter(|at| slipped != Some(*at));
    of(None)
        + prior::STRAY_ROW / (1.0 - prior::STRAY_ROW) * strays.map(|at| of(Some(at))).sum::<f64>()
}

/// Slips of single rows' digits: the figures with two neighbouring digits
/// swapped, as ratios to the recorded, with the share of each.
fn swaps(text: &str) -> Vec<(f64, f64)> {
    let chars: Vec<char> = text.chars().collect();
    let digits: Vec<usize> = (0..chars.len())
        .filter(|i| chars[*i].is_ascii_digit())
        .collect();
    let recorded: f64 = text.parse().expect("a number");
    let mut ratios = Vec::new();
    for pair in digits.windows(2) {
        let mut swapped = chars.clone();
        swapped.swap(pair[0], pair[1]);
        let value: f64 = swapped
            .iter()
            .collect::<String>()
            .parse()
            .expect("a number");
        if chars[pair[0]] != chars[pair[1]] && value > 0.0 {
            ratios.push(value / recorded);
        }
    }
    let share = 1.0 / f64::from(u32::try_from(ratios.len().max(1)).expect("few digits"));
    ratios.into_iter().map(|ratio| (ratio, share)).collect()
}

/// One row's change among rows that are as recorded.
fn only(rows: usize, at: usize, ratio: f64) -> Vec<f64> {
    let mut ratios = vec![1.0; rows];
    ratios[at] = ratio;
    ratios
}
