//! Sheets laid side by side: which rows are of one setting, which of them
//! agree, and how probable that pattern is.

use super::chance;
use super::taken::{Reading, Taken, TakenRow};
use crate::reading::prior::agreement as prior;

/// Whether sheets are of one kit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kinship {
    SameKit,
    OtherKit,
    Unknown,
}

/// Readings of one thing, one from each sheet.
#[derive(Clone, Debug)]
struct Measured {
    step: f64,
    /// The chance that all rounded to five steps.
    fives: f64,
    sd: f64,
    /// How much they differ for each unit of the factor between two kits.
    per_kit_factor: f64,
}

/// Rows of one setting, one from each sheet.
#[derive(Clone, Debug)]
struct Matched {
    /// Their indices, in the order of the sheets; empty for the scale.
    rows: Vec<usize>,
    agrees: bool,
    /// The rows that each might have agreed with.
    tries: f64,
    /// The chance that they agree for another reason.
    told: f64,
    measured: Vec<Measured>,
}

/// Some sheets side by side.
#[derive(Clone, Debug)]
pub(super) struct Agreement {
    matched: Vec<Matched>,
    /// Rows of the shortest sheet that have no like in the others.
    unmatched: usize,
    /// How many readings have to agree with the first.
    others: i32,
    /// For each scatter of the prior and each factor between the kits: its
    /// weight, and the chance that each matched row agrees.
    chances: [Vec<(f64, Vec<f64>)>; prior::SCATTER.len()],
}

impl Agreement {
    pub(super) fn of(sheets: &[&Taken], kinship: Kinship) -> Self {
        let shortest = sheets.iter().map(|sheet| sheet.rows.len()).min();
        let mut matched = match_rows(sheets);
        let unmatched = shortest.unwrap_or(0).saturating_sub(matched.len());
        // Rows in which only one side measured say nothing.
        matched.retain(|row| !row.measured.is_empty());
        matched.extend(scale(sheets));
        let others = i32::try_from(sheets.len()).unwrap_or(i32::MAX) - 1;
        let cases = cases(kinship);
        let chances = prior::SCATTER.map(|(scatter, _)| {
            let of_case = |&(factor, weight): &(f64, f64)| {
                let rows = matched.iter();
                let each = rows.map(|row| chance_of(row, others, scatter, factor));
                (weight, each.collect())
            };
            cases.iter().map(of_case).collect()
        });
        Self {
            matched,
            unmatched,
            others,
            chances,
        }
    }

    /// For each sheet the rows that agree in all.
    pub(super) fn rows(&self, sheet: usize) -> Vec<usize> {
        let agreeing = self.matched.iter().filter(|row| row.agrees);
        let mut rows: Vec<_> = agreeing
            .filter_map(|row| row.rows.get(sheet).copied())
            .collect();
        rows.sort_unstable();
        rows
    }

    /// How many rows agree in all sheets.
    pub(super) fn agreeing(&self) -> usize {
        let rows = self.matched.iter().filter(|row| !row.rows.is_empty());
        rows.filter(|row| row.agrees).count()
    }

    /// How many rows there are to agree.
    pub(super) fn comparable(&self) -> usize {
        let rows = self.matched.iter().filter(|row| !row.rows.is_empty());
        rows.count() + self.unmatched
    }

    /// Whether nothing differs.
    pub(super) fn is_whole(&self) -> bool {
        self.unmatched == 0 && self.agreeing() > 0 && self.matched.iter().all(|row| row.agrees)
    }

    /// The probability of the pattern where each group measured for itself, at
    /// one of the prior's scatters.
    pub(super) fn if_own(&self, at: usize) -> f64 {
        self.over_kits(at, |row, p| if row.agrees { p } else { 1.0 - p })
    }

    /// The probability that all agree where each measured for itself.
    pub(super) fn all_by_chance(&self, at: usize) -> f64 {
        self.over_kits(at, |_, p| p)
    }

    /// The probability that the rows that agree do so by chance, whatever the
    /// others do.
    pub(super) fn as_many_by_chance(&self, at: usize) -> f64 {
        self.over_kits(at, |row, p| if row.agrees { p } else { 1.0 })
    }

    /// The probability of the pattern where a share of the rows was taken
    /// over.
    pub(super) fn if_taken_over(&self, at: usize) -> f64 {
        let for_share = |(share, weight): (f64, f64)| {
            let taken = share.powi(self.others);
            let unmatched = (0..self.unmatched).fold(1.0, |product, _| product * (1.0 - taken));
            let pattern = self.over_kits(at, |row, p| {
                if row.agrees {
                    taken + (1.0 - taken) * p
                } else {
                    (1.0 - taken) * (1.0 - p)
                }
            });
            weight * unmatched * pattern
        };
        prior::SHARES_TAKEN.into_iter().map(for_share).sum()
    }

    /// A product over the rows, averaged over the factor between kits.
    fn over_kits(&self, at: usize, of_row: impl Fn(&Matched, f64) -> f64) -> f64 {
        let cases = self.chances[at].iter();
        cases
            .map(|(weight, chances)| {
                let rows = self.matched.iter().zip(chances);
                weight * rows.map(|(row, p)| of_row(row, *p)).product::<f64>()
            })
            .sum()
    }
}

/// Factors between the kits, less one, with their weights. Which of two kits
/// has the larger is all the same to agreement.
fn cases(kinship: Kinship) -> Vec<(f64, f64)> {
    let on_one_kit = match kinship {
        Kinship::SameKit => 1.0,
        Kinship::OtherKit => 0.0,
        Kinship::Unknown => prior::SAME_KIT,
    };
    let on_two = factors().map(|(factor, weight)| (factor, (1.0 - on_one_kit) * weight));
    let mut cases: Vec<_> = on_two.collect();
    cases[0].1 += on_one_kit;
    cases.retain(|(_, weight)| *weight > 0.0);
    cases
}

/// The chance that a row of honest sheets agrees in all, where each of
/// `others` has to agree with the first.
fn chance_of(row: &Matched, others: i32, scatter: f64, factor: f64) -> f64 {
    let readings = row.measured.iter().map(|reading| {
        let sd = scatter * reading.sd;
        let apart = factor * reading.per_kit_factor;
        let within = |step| chance::of_agreeing(step, sd, apart);
        if reading.fives > 0.0 {
            let coarse = reading.fives * within(5.0 * reading.step);
            coarse + (1.0 - reading.fives) * within(reading.step)
        } else {
            within(reading.step)
        }
    });
    let by_accident = (row.tries * readings.product::<f64>()).min(1.0);
    let pair = row.told + (1.0 - row.told) * by_accident;
    pair.powi(others).clamp(1e-12, 0.999)
}

/// How far two kits differ, with weights: the absolute value of a normal, on an
/// even grid to three standard deviations.
fn factors() -> impl Iterator<Item = (f64, f64)> {
    const LAST: i32 = 12;
    let weight = |i: i32| {
        let ways = if i == 0 { 1.0 } else { 2.0 };
        ways * (-0.5 * (f64::from(i) / 4.0).powi(2)).exp()
    };
    let total: f64 = (0..=LAST).map(weight).sum();
    (0..=LAST).map(move |i| (prior::KIT_SD * f64::from(i) / 4.0, weight(i) / total))
}

/// Each row of the first sheet with one of the same setting from each other,
/// by preference one that agrees.
fn match_rows(sheets: &[&Taken]) -> Vec<Matched> {
    let Some((first, others)) = sheets.split_first() else {
        return Vec::new();
    };
    let mut used = vec![Vec::new(); others.len()];
    let mut matched = Vec::new();
    for row in &first.rows {
        let partners: Option<Vec<&TakenRow>> = others
            .iter()
            .zip(&used)
            .map(|(other, used)| partner(row, other, used))
            .collect();
        let Some(partners) = partners else { continue };
        for (used, partner) in used.iter_mut().zip(&partners) {
            used.push(partner.index);
        }
        let tries = others.iter().map(|other| other.repeats(row.setting)).max();
        matched.push(laid_together(row, &partners, tries.unwrap_or(1)));
    }
    matched
}

fn partner<'t>(row: &TakenRow, other: &'t Taken, used: &[usize]) -> Option<&'t TakenRow> {
    let fits = |theirs: &&TakenRow| theirs.setting == row.setting && !used.contains(&theirs.index);
    let mut fitting = other.rows.iter().filter(fits);
    let alike = fitting.clone().find(|theirs| {
        let mut pairs = row
            .readings
            .iter()
            .filter_map(|mine| Some((mine, same_field(mine, theirs)?)));
        pairs.all(|(mine, theirs)| mine.agrees(theirs))
    });
    alike.or_else(|| fitting.next())
}

fn same_field<'t>(reading: &Reading, row: &'t TakenRow) -> Option<&'t Reading> {
    row.readings
        .iter()
        .find(|theirs| theirs.field == reading.field)
}

fn laid_together(row: &TakenRow, partners: &[&TakenRow], repeats: usize) -> Matched {
    let mut agrees = true;
    let mut measured = Vec::new();
    for mine in &row.readings {
        let theirs: Option<Vec<_>> = partners
            .iter()
            .map(|other| same_field(mine, other))
            .collect();
        let Some(theirs) = theirs else { continue };
        agrees &= theirs.iter().all(|theirs| mine.agrees(theirs));
        measured.push(side_by_side(mine, &theirs));
    }
    let partners = partners.iter().map(|other| other.index);
    Matched {
        rows: std::iter::once(row.index).chain(partners).collect(),
        agrees,
        tries: f64::from(u32::try_from(repeats).unwrap_or(u32::MAX)),
        told: 0.0,
        measured,
    }
}

fn side_by_side(mine: &Reading, theirs: &[&Reading]) -> Measured {
    let timed = mine.field == crate::field::Field::Seconds;
    Measured {
        step: theirs.iter().fold(mine.step, |step, r| step.max(r.step)),
        fives: mine.fives * theirs.iter().fold(0.0, |most, r| r.fives.max(most)),
        sd: mine.sd,
        per_kit_factor: if timed { 0.0 } else { mine.value },
    }
}

/// The scale of the picture, where all measured it.
fn scale(sheets: &[&Taken]) -> Option<Matched> {
    let all: Option<Vec<&Reading>> = sheets.iter().map(|sheet| sheet.scale.as_ref()).collect();
    let all = all?;
    let (mine, theirs) = all.split_first()?;
    Some(Matched {
        rows: Vec::new(),
        agrees: theirs.iter().all(|theirs| mine.agrees(theirs)),
        tries: 1.0,
        told: prior::SCALE_TOLD,
        measured: vec![side_by_side(mine, theirs)],
    })
}
