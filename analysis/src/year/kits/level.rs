//! What kits of one kind are compared with, and how far single sheets scatter
//! about their own kit.

use std::f64::consts::FRAC_PI_2;

use serde::{Deserialize, Serialize};

use super::standing::LINES;
use super::{Aside, FEWEST_LESSONS, FEWEST_SHEETS, Kind, counted};
use crate::method::prior::SURFACE_TENSION_MEAN;
use crate::stats::robust;
use crate::stats::spread;
use crate::year::Year;

/// Surface tension of clean water at 20 °C, N/m (IAPWS R1-76(2014)).
const CLEAN_WATER: f64 = 0.0727;

/// How far below clean water's the surface tension of a school tank's water
/// usually is, N/m: our choice, as in the priors of the inference.
pub const USED_WATER: f64 = SURFACE_TENSION_MEAN - CLEAN_WATER;

/// Kits from which on they are compared with one another: of two that differ,
/// nobody can say which is off.
const FEWEST_KITS: usize = 3;

/// What kits of one kind are compared with.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Level {
    /// Of which kind.
    pub kind: Kind,
    /// ln(speed/expected) of a kit that is as it should be.
    pub reference: f64,
    /// Its standard error, where it was found from the kits.
    pub reference_se: f64,
    /// Where it is from.
    pub by: Reference,
    /// Standard deviation of single sheets about their own kit, robust and
    /// pooled over the kits, in ln(speed/expected); `None` with too few.
    pub sd: Option<f64>,
    /// Degrees of freedom that it rests on.
    pub df: usize,
    /// How far the surface tension of the department's water is from clean
    /// water's, N/m: what bends rows over frequency in every tank.
    pub tension: f64,
    /// What is left of the reference beside that.
    pub offset: f64,
    /// Standard deviation of rows about their own sheet.
    pub row_sd: Option<f64>,
}

/// Where a reference is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reference {
    /// The median of so many kits' own medians: one kit that is off, of three
    /// or more, does not move it far.
    Kits(usize),
    /// Too few kits to compare: what physics gives, with used water in a
    /// tank.
    Physics,
}

impl Level {
    /// Gives the ratios at which single sheets are marked: three and two
    /// standard deviations below the reference, then two and three above.
    #[must_use]
    pub fn sigma_lines(&self) -> Option<[f64; 4]> {
        let sd = self.sd?;
        let [two, three] = LINES;
        Some([-three, -two, two, three].map(|sigmas| (self.reference + sigmas * sd).exp()))
    }
}

/// Finds the level of a kind.
pub(super) fn of(year: &Year, kind: Kind, asides: &[Aside]) -> Level {
    let of_kind = (0..year.kits.len()).filter(|kit| year.kits[*kit] == kind);
    let sheets: Vec<Vec<(usize, f64)>> = of_kind.map(|kit| counted(year, kit, asides)).collect();
    let judged: Vec<Vec<f64>> = sheets
        .iter()
        .filter(|sheets| is_enough(year, sheets))
        .map(|sheets| sheets.iter().map(|(_, value)| *value).collect())
        .collect();
    let (sd, df) = pooled(&judged);
    let moves = tension_moves(year, &sheets).unwrap_or(0.0);
    let medians: Vec<f64> = judged.iter().filter_map(|v| spread::median(v)).collect();
    let middle = spread::median(&medians).filter(|_| medians.len() >= FEWEST_KITS);
    let tension = match middle {
        Some(_) if kind == Kind::Tank => tension_of_kits(year, &sheets),
        _ => USED_WATER,
    };
    // A string does not move with any water; a generator's value is without.
    let of_water = if kind == Kind::Tank {
        tension * moves
    } else {
        0.0
    };
    let reference = middle.unwrap_or(of_water);
    Level {
        kind,
        reference,
        reference_se: middle.and(sd).map_or(0.0, |sd| standard_error(sd, &judged)),
        by: middle.map_or(Reference::Physics, |_| Reference::Kits(medians.len())),
        sd,
        df,
        tension,
        offset: reference - of_water,
        row_sd: row_sd(year, &sheets),
    }
}

/// Whether a kit's sheets are enough to judge it by.
pub(super) fn is_enough(year: &Year, sheets: &[(usize, f64)]) -> bool {
    sheets.len() >= FEWEST_SHEETS && lessons(year, sheets).len() >= FEWEST_LESSONS
}

/// The lessons that some sheets are from, by date.
pub(super) fn lessons(year: &Year, sheets: &[(usize, f64)]) -> Vec<usize> {
    let mut lessons: Vec<_> = sheets
        .iter()
        .map(|(at, _)| year.sheets[*at].lesson)
        .collect();
    lessons.sort_unstable();
    lessons.dedup();
    lessons
}

/// Robust standard deviations of kits, pooled by their degrees of freedom.
fn pooled(kits: &[Vec<f64>]) -> (Option<f64>, usize) {
    let spreads = kits
        .iter()
        .filter_map(|values| Some((robust::algorithm_a(values)?.sd, values.len() - 1)));
    let (squares, df) = spreads.fold((0.0, 0), |(squares, df), (sd, more)| {
        (squares + more as f64 * sd * sd, df + more)
    });
    let sd = (df > 0).then(|| (squares / df as f64).sqrt());
    (sd.filter(|sd| *sd > 0.0), df)
}

/// The standard error of the median of kits' medians: √(π/2) times that of
/// the mean of as many, each with a standard error of its own. Our choice;
/// kits that differ more than their sheets scatter make it larger in truth.
fn standard_error(sd: f64, kits: &[Vec<f64>]) -> f64 {
    let variances: f64 = kits
        .iter()
        .map(|values| sd * sd / values.len() as f64)
        .sum();
    (variances * FRAC_PI_2).sqrt() / kits.len() as f64
}

/// How far ln v of the sheets' rows moves per N/m, on average.
fn tension_moves(year: &Year, kits: &[Vec<(usize, f64)>]) -> Option<f64> {
    let rows = kits
        .iter()
        .flatten()
        .flat_map(|(at, _)| &year.sheets[*at].judgement.rows);
    let moves: Vec<f64> = rows.map(|row| row.by_surface_tension).collect();
    spread::mean(&moves)
}

/// The surface tension of the department's water less clean water's, N/m: of
/// what each tank's rows say within their own sheets, the middle one. A lamp
/// moves all rows of a sheet alike, so it has no say in it.
fn tension_of_kits(year: &Year, kits: &[Vec<(usize, f64)>]) -> f64 {
    let slopes = kits.iter().filter_map(|sheets| {
        let (mut products, mut squares) = (0.0, 0.0);
        for (at, _) in sheets {
            let rows = &year.sheets[*at].judgement.rows;
            let moves: Vec<f64> = rows.iter().map(|row| row.by_surface_tension).collect();
            let Some(mean) = spread::mean(&moves) else {
                continue;
            };
            for row in rows {
                let from_mean = row.by_surface_tension - mean;
                products += from_mean * row.level;
                squares += from_mean * from_mean;
            }
        }
        (squares > 0.0).then(|| products / squares)
    });
    let slopes: Vec<f64> = slopes.collect();
    spread::median(&slopes).unwrap_or(USED_WATER)
}

fn row_sd(year: &Year, kits: &[Vec<(usize, f64)>]) -> Option<f64> {
    let sheets = kits.iter().flatten().map(|(at, _)| {
        let rows = year.sheets[*at].judgement.rows.iter();
        rows.map(|row| row.level).collect::<Vec<f64>>()
    });
    let sheets: Vec<_> = sheets.collect();
    let groups: Vec<&[f64]> = sheets.iter().map(Vec::as_slice).collect();
    spread::pooled_sd(&groups).filter(|sd| *sd > 0.0)
}
