//! How far honest readings of a class scatter: what its pairs of sheets tell.

use super::agreement::Agreement;
use crate::reading::prior::agreement as prior;

/// Values at each scatter of the prior.
pub(super) type ByScatter = [f64; prior::SCATTER.len()];

/// ln likelihood of each scatter, pair by pair.
#[derive(Debug)]
pub(super) struct Scatter {
    sheets: usize,
    /// Of the pairs (0, 1), (0, 2), (1, 2), (0, 3) and so on; nought where two
    /// are not compared.
    pairs: Vec<ByScatter>,
    /// The sum of all pairs, and of those of each sheet.
    all: ByScatter,
    of_sheet: Vec<ByScatter>,
}

impl Scatter {
    pub(super) fn new(sheets: usize) -> Self {
        let none = ByScatter::default();
        Self {
            sheets,
            pairs: vec![none; sheets * sheets.saturating_sub(1) / 2],
            all: none,
            of_sheet: vec![none; sheets],
        }
    }

    /// What two sheets (the first before the second) tell.
    pub(super) fn add(&mut self, sheets: [usize; 2], told: ByScatter) {
        self.pairs[place(sheets)] = told;
        add(&mut self.all, told, 1.0);
        for sheet in sheets {
            add(&mut self.of_sheet[sheet], told, 1.0);
        }
    }

    /// What the pairs apart from these sheets (ascending) tell of the scatter.
    /// They are not independent: n readings of one thing make n − 1
    /// differences, not n (n − 1)/2, and weigh accordingly.
    pub(super) fn weights(&self, apart_from: &[usize]) -> ByScatter {
        let mut told = self.all;
        for (at, sheet) in apart_from.iter().enumerate() {
            add(&mut told, self.of_sheet[*sheet], -1.0);
            // Pairs of two of these were taken off twice.
            for earlier in &apart_from[..at] {
                add(&mut told, self.pairs[place([*earlier, *sheet])], 1.0);
            }
        }
        let left = self.sheets.saturating_sub(apart_from.len()).max(2);
        let share = 2.0 / f64::from(u32::try_from(left).unwrap_or(u32::MAX));
        let mut ln = prior::SCATTER.map(|(_, weight): (f64, f64)| weight.ln());
        add(&mut ln, told, share);
        let largest = ln.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights = ln.map(|ln| (ln - largest).exp());
        let total: f64 = weights.iter().sum();
        weights.map(|weight| weight / total)
    }
}

/// Where a pair is kept.
fn place([one, other]: [usize; 2]) -> usize {
    other * other.saturating_sub(1) / 2 + one
}

fn add(to: &mut ByScatter, values: ByScatter, times: f64) {
    for (sum, value) in to.iter_mut().zip(values) {
        *sum += times * value;
    }
}

/// ln likelihood of each scatter. Sheets that agree in everything may be one
/// set, and are left out; what the others say is put right for that.
pub(super) fn likelihood_of_scatter(agreement: &Agreement) -> ByScatter {
    std::array::from_fn(|scatter| {
        if agreement.is_whole() || agreement.comparable() == 0 {
            return 0.0;
        }
        let not_all = 1.0 - agreement.all_by_chance(scatter);
        (agreement.if_own(scatter) / not_all.max(1e-6))
            .max(1e-300)
            .ln()
    })
}
