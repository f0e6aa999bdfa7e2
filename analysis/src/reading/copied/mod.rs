//! Readings that may not be a group's own: questions for the teacher alone,
//! never a mark and never shown to pupils. Two rules ask.
//!
//! # 1. Every reading of two groups is the same
//! All that was read in all rows agrees digit for digit, in whatever order
//! the rows stand, and the groups do not declare one shared set.
//! Sheets that agree are found by their figures, without comparing each with
//! each.
//!
//! That happens by chance too, and more often the coarser and the surer a
//! class reads. The class itself says how often. Of each other pair of its
//! sheets it is counted in how many of the c measured readings (those of the
//! same setting: dial and count) they show the same, a; the pair would agree
//! in all R readings with about
//!
//! ((a + w p̄)/(c + w))^R,
//!
//! where p̄ is the class's own share, and w, [`AS_CLASS`](prior::AS_CLASS),
//! keeps few readings from saying too much. The mean over the pairs is the
//! chance that any two agree. It is a mean of powers and no power of a mean,
//! so that a few pairs that read alike, on one kit or with the same care, are
//! enough to keep the tool silent. One pair more is made up, which reads to
//! [`SCATTER`](prior::SCATTER) of the instruments' errors, lest a class of two
//! or three know nothing of chance.
//!
//! Of n sheets, n [`COPIES`](prior::COPIES) pairs are expected to share
//! unsaid, and n (n − 1)/2 times that chance to agree; the probability is the
//! first over both. Three sheets that agree are taken to be no more telling
//! than two. Fewer than [`FEWEST_READINGS`] measured readings ask nothing.
//!
//! Left out on purpose: sheets that agree in part, and six rows to the
//! millimetre in a class whose scatter is a millimetre, of which chance makes
//! a pair in one class of thirty. A class does not show a sharp eye that only
//! two of its groups have: they may be asked about (`tests/copied.rs`).
//!
//! # 2. All repeats of a sheet show no spread
//! Every repeat of a setting shows the first one's figures, though a group
//! that measures again would differ. Whoever reads again remembers, so
//! repeats are taken to scatter by [`REPEATS`](prior::REPEATS) of the
//! instruments' errors only, and agree by chance with the product over the
//! repeats.
//!
//! # What counts as measured
//! Spans, times of counts, lengths along a string and frequencies at which it
//! resonates. Dials of a ripple tank and counts are chosen; so is a length
//! that stays the same from setting to setting, and a figure in proportion to
//! an earlier row's. The step of a reading is that of the sheet, not of the
//! digits: where all spans are multiples of 5 mm, it is 5 mm, and others agree
//! in part who lie within it.

mod taken;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::LEAST_PROBABLE;
use crate::field::Field;
use crate::method::Method;
use crate::method::prior::agreement as prior;
use crate::sheet::Sheet;

use taken::{Reading, Taken};

/// Measured readings from which on sheets that agree are asked about. Our
/// choice: two or three figures agree somewhere in any department.
pub const FEWEST_READINGS: usize = 4;

/// A sheet with what its group says of where its readings come from. One for
/// each group: sheets of one group agree by right.
#[derive(Clone, Copy, Debug)]
pub struct Declared<'s> {
    /// What was read.
    pub sheet: &'s Sheet,
    /// The shared set of readings that the group says it used; blank where the
    /// readings are its own.
    pub shared: &'s str,
}

/// Something that the teacher may want to ask.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// What was found.
    pub found: Found,
    /// The sheets concerned, as indices into those given, ascending. One for
    /// repeats without spread.
    pub sheets: Vec<usize>,
    /// The probability that the readings are one set (or that the repeats
    /// were not measured), from [`LEAST_PROBABLE`] to 1.
    pub probability: f64,
    /// The chance that two groups agree so where each measures for itself (or
    /// that measured repeats do).
    pub by_chance: f64,
}

/// What there is to ask about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Found {
    /// Sheets whose readings are all the same.
    Same {
        /// Rows with something measured in them.
        rows: usize,
        /// Whether any of the groups says that it used a shared set.
        is_declared: bool,
    },
    /// Repeats that show no spread.
    NoSpread {
        /// How many, beside the first of each setting.
        repeats: usize,
    },
}

/// Finds what the readings of one class give reason to ask, most probable
/// first; nothing below [`LEAST_PROBABLE`].
///
/// Sheets that agree with one another are one question. Groups that declare
/// the same shared set are not asked about. One that declares a set and one
/// that declares none, or another, are: somebody may have left it out.
#[must_use]
pub fn questions(sheets: &[Declared<'_>]) -> Vec<Question> {
    let taken: Vec<Taken> = sheets.iter().map(|d| Taken::of(d.sheet)).collect();
    let repeats = taken.iter().enumerate().filter_map(without_spread);
    let mut questions: Vec<Question> = repeats.collect();
    for method in Method::ALL {
        let of_method = (0..sheets.len()).filter(|at| sheets[*at].sheet.method == method);
        let mut alike: BTreeMap<&[String], Vec<usize>> = BTreeMap::new();
        for at in of_method {
            alike.entry(&taken[at].figures).or_default().push(at);
        }
        let sets = alike.values().filter(|set| sources(sheets, set) > 1);
        questions.extend(sets.filter_map(|set| same(sheets, &taken, &alike, set)));
    }
    questions.retain(|question| question.probability >= LEAST_PROBABLE);
    questions.sort_by(|one, other| other.probability.total_cmp(&one.probability));
    questions
}

/// Counts the sets of readings that some sheets say they are of, each without
/// a word being its own.
fn sources(sheets: &[Declared<'_>], set: &[usize]) -> usize {
    let mut said: Vec<String> = set
        .iter()
        .map(|at| sheets[*at].shared.trim().to_lowercase())
        .collect();
    let own = said.iter().filter(|words| words.is_empty()).count();
    said.sort_unstable();
    said.dedup();
    said.iter().filter(|words| !words.is_empty()).count() + own
}

/// Asks about sheets that agree in everything; `alike` are all of their method.
fn same(
    sheets: &[Declared<'_>],
    taken: &[Taken],
    alike: &BTreeMap<&[String], Vec<usize>>,
    set: &[usize],
) -> Option<Question> {
    let of = &taken[*set.first()?];
    if of.measured.len() < FEWEST_READINGS {
        return None;
    }
    // One sheet of each that agree, so that a shared set is no proof that
    // others agree by chance.
    let each: Vec<&Taken> = alike.values().map(|set| &taken[set[0]]).collect();
    let by_chance = chance_of_all(of, &each);
    let sheets_of_method = alike.values().map(Vec::len).sum::<usize>() as f64;
    let shared = sheets_of_method * prior::COPIES;
    let agreeing = sheets_of_method * (sheets_of_method - 1.0) / 2.0 * by_chance;
    Some(Question {
        found: Found::Same {
            rows: of.figures.len(),
            is_declared: set.iter().any(|at| !sheets[*at].shared.trim().is_empty()),
        },
        sheets: set.to_vec(),
        probability: shared / (shared + agreeing),
        by_chance,
    })
}

/// Estimates the chance that two sheets agree in every reading of this one,
/// from how the pairs of a class do.
fn chance_of_all(of: &Taken, class: &[&Taken]) -> f64 {
    let readings: Vec<&Reading> = of.measured.values().collect();
    let all = readings.len() as f64;
    let made_up: Vec<f64> = readings
        .iter()
        .map(|reading| chance_of_agreeing(reading, prior::SCATTER))
        .collect();
    let figures: Vec<Vec<Option<f64>>> = class
        .iter()
        .map(|sheet| {
            let places = of.measured.keys();
            places
                .map(|place| Some(sheet.measured.get(place)?.value))
                .collect()
        })
        .collect();
    let mut pairs: Vec<(f64, f64)> = Vec::new();
    for (at, one) in figures.iter().enumerate() {
        for other in &figures[..at] {
            let (mut agreed, mut compared) = (0.0, 0.0);
            for ((one, other), reading) in one.iter().zip(other).zip(&readings) {
                if let (Some(one), Some(other)) = (one, other) {
                    agreed += (1.0 - (one - other).abs() / reading.step).max(0.0);
                    compared += 1.0;
                }
            }
            if compared > 0.0 {
                pairs.push((agreed, compared));
            }
        }
    }
    let (agreed, compared) = pairs.iter().fold(
        (made_up.iter().sum::<f64>(), all),
        |(agreed, compared), pair| (agreed + pair.0, compared + pair.1),
    );
    let usual = agreed / compared;
    let of_pair = |(agreed, compared): &(f64, f64)| {
        let share = (agreed + prior::AS_CLASS * usual) / (compared + prior::AS_CLASS);
        share.powf(all)
    };
    let total = made_up.iter().product::<f64>() + pairs.iter().map(of_pair).sum::<f64>();
    total / (pairs.len() + 1) as f64
}

/// Asks about a sheet where every repeat shows the first one's figures.
fn without_spread((at, taken): (usize, &Taken)) -> Option<Question> {
    let mut repeats = 0;
    let mut by_chance = 1.0;
    for ((setting, number, field), reading) in &taken.measured {
        // A string's length is measured once, by right.
        if *number == 0 || *field == Field::Length {
            continue;
        }
        let first = taken.measured.get(&(setting.clone(), 0, *field))?;
        if !first.agrees(reading) {
            return None;
        }
        repeats += 1;
        by_chance *= chance_of_agreeing(reading, prior::REPEATS);
    }
    let odds = prior::MADE_UP / by_chance;
    (repeats > 0).then(|| Question {
        found: Found::NoSpread { repeats },
        sheets: vec![at],
        probability: if odds.is_finite() {
            odds / (1.0 + odds)
        } else {
            1.0
        },
        by_chance,
    })
}

/// Gives the chance that two readings of one length show the same figure,
/// where they scatter by so much of the instrument's error.
///
/// Where in a step r the length lies is anybody's guess, so a difference d
/// falls within one step with the chance (1 − |d|/r)⁺; this is its mean over
/// a normal d of standard deviation √2 s: erf(x/√2) − √(2/π) (1 − e^(−x²/2))/x
/// with x = r/(√2 s).
fn chance_of_agreeing(reading: &Reading, scatter: f64) -> f64 {
    use std::f64::consts::{FRAC_1_SQRT_2, FRAC_2_PI};
    let x = reading.step * FRAC_1_SQRT_2 / (scatter * reading.sd);
    if !x.is_finite() {
        return 1.0;
    }
    let inside = statrs::function::erf::erf(x * FRAC_1_SQRT_2);
    (inside - FRAC_2_PI.sqrt() * (-(-0.5 * x * x).exp_m1()) / x).clamp(0.0, 1.0)
}
