//! Which wrong turns explain a column of figures.
//!
//! The order is that of the methods: one turn that explains every row beats
//! turns that explain rows one by one; a named turn beats a power of ten; one
//! turn beats two; two are tried only where one fails, three never.
//!
//! # Cost
//! A step knows at most 8 turns, and at most three blank figures before it
//! bring theirs: T ≤ 20 named turns and 6 powers of ten. One row is compared
//! with at most T + 6 single turns and T(T − 1)/2 + 6 T pairs, 336 in all,
//! each a handful of multiplications, and pairs only where no single turn
//! explains the column.
//!
//! # What is not told apart
//! A turn that every row shares is taken out and named once. More than two
//! different pairs that fit one row mean that the figure is too coarse to tell:
//! it is said not to follow.

use crate::method::step::POWERS_OF_TEN;
use crate::slip::Slip;

use super::chain::{Chain, Wrong};

/// Up to two wrong turns taken together.
pub(crate) type Turns = Vec<Wrong>;

/// How wrong turns fit a row's figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fit {
    /// They give it.
    Gives,
    /// They give another figure.
    Differs,
    /// They cannot be taken in this row (no multiplier to leave out).
    NotThere,
}

/// What explains one row, and what else explains it just as well.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Explanation {
    pub(crate) turns: Turns,
    pub(crate) rival: Option<Turns>,
}

/// What explains a column.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Explained {
    /// Turns taken on every row that gave the figure.
    pub(crate) whole: Option<Explanation>,
    /// For each row of the column: `None` where it is right or explained by
    /// `whole` alone; else what (more) was done there. An explanation without
    /// turns says that nothing explains the row.
    pub(crate) rows: Vec<Option<Explanation>>,
}

/// The turns that put a figure out by a power of ten.
fn powers() -> [Wrong; 6] {
    POWERS_OF_TEN.map(Wrong::PowerOfTen)
}

/// More pairs than this that fit one row say that the figure is too coarse to
/// tell: it is then said not to follow.
const MOST_PAIRS: usize = 2;

/// Explains a column. `right[i]` says whether its row `i` is right;
/// `fits(i, turns)` how those turns fit the figure of row `i`.
pub(crate) fn explain(
    chain: &Chain<'_>,
    named: &[Wrong],
    right: &[bool],
    fits: &dyn Fn(usize, &[Wrong]) -> Fit,
) -> Explained {
    let search = Search {
        chain,
        named,
        right,
        fits,
    };
    search
        .whole(&search.singles())
        .or_else(|| search.whole(&search.powers()))
        .unwrap_or_else(|| search.by_rows())
}

struct Search<'a, 's> {
    chain: &'a Chain<'s>,
    named: &'a [Wrong],
    right: &'a [bool],
    fits: &'a dyn Fn(usize, &[Wrong]) -> Fit,
}

impl Search<'_, '_> {
    fn singles(&self) -> Vec<Turns> {
        self.named.iter().map(|turn| vec![*turn]).collect()
    }

    fn powers(&self) -> Vec<Turns> {
        powers().map(|power| vec![power]).into()
    }

    fn named_pairs(&self) -> Vec<Turns> {
        let mut pairs = Vec::new();
        for (at, one) in self.named.iter().enumerate() {
            for other in &self.named[at + 1..] {
                if self.chain.compatible(*one, *other) {
                    pairs.push(vec![*one, *other]);
                }
            }
        }
        pairs
    }

    fn power_pairs(&self) -> Vec<Turns> {
        self.named
            .iter()
            .flat_map(|turn| powers().map(|power| vec![*turn, power]))
            .collect()
    }

    fn failing(&self) -> impl Iterator<Item = usize> + '_ {
        self.right
            .iter()
            .enumerate()
            .filter(|(_, right)| !**right)
            .map(|(row, _)| row)
    }

    /// Turns that explain every row of a column in which they can be taken,
    /// two rows or more; the other rows must be right.
    fn whole(&self, candidates: &[Turns]) -> Option<Explained> {
        let explains = |turns: &&Turns| {
            let mut given = 0;
            let all = (0..self.right.len()).all(|row| match (self.fits)(row, turns) {
                Fit::Gives => {
                    given += 1;
                    true
                }
                Fit::Differs => false,
                Fit::NotThere => self.right[row],
            });
            all && given > 1
        };
        let fitting: Vec<_> = candidates.iter().filter(explains).collect();
        Some(Explained {
            whole: Some(self.best(&fitting)?),
            rows: vec![None; self.right.len()],
        })
    }

    /// The first of several explanations, with the next that names other
    /// slips as its rival.
    fn best(&self, fitting: &[&Turns]) -> Option<Explanation> {
        let turns = (*fitting.first()?).clone();
        let slips = self.slips(&turns);
        let rival = fitting
            .iter()
            .find(|other| self.slips(other) != slips)
            .map(|t| (*t).clone());
        Some(Explanation { turns, rival })
    }

    fn slips(&self, turns: &[Wrong]) -> Vec<Slip> {
        turns.iter().map(|turn| self.chain.slip(*turn)).collect()
    }

    fn by_rows(&self) -> Explained {
        let mut fitting: Vec<Vec<Turns>> = vec![Vec::new(); self.right.len()];
        for row in self.failing() {
            fitting[row] = self.fitting(row, self.singles());
            if fitting[row].is_empty() {
                fitting[row] = self.fitting(row, self.powers());
            }
        }
        if self.failing().all(|row| !fitting[row].is_empty()) {
            return self.chosen(None, &fitting);
        }
        if let Some(pair) = self
            .whole(&self.named_pairs())
            .or_else(|| self.whole(&self.power_pairs()))
        {
            return pair;
        }
        let unexplained: Vec<_> = self
            .failing()
            .filter(|row| fitting[*row].is_empty())
            .collect();
        for row in unexplained {
            fitting[row] = self.fitting_pairs(row);
        }
        let common = self.common(&fitting);
        if common.is_none() {
            // On its own a row with a power of ten on top of another turn
            // proves little: some power comes near almost any figure.
            for row in &mut fitting {
                row.retain(|turns| turns.len() < 2 || !powers().contains(&turns[1]));
            }
        }
        self.chosen(common, &fitting)
    }

    fn fitting(&self, row: usize, candidates: Vec<Turns>) -> Vec<Turns> {
        candidates
            .into_iter()
            .filter(|turns| (self.fits)(row, turns) == Fit::Gives)
            .collect()
    }

    fn fitting_pairs(&self, row: usize) -> Vec<Turns> {
        let mut pairs = self.fitting(row, self.named_pairs());
        if pairs.is_empty() {
            pairs = self.fitting(row, self.power_pairs());
        }
        let mut different: Vec<_> = pairs.iter().map(|pair| self.slips(pair)).collect();
        different.dedup();
        if different.len() > MOST_PAIRS {
            Vec::new()
        } else {
            pairs
        }
    }

    /// A turn that every row took, alone or with another.
    fn common(&self, fitting: &[Vec<Turns>]) -> Option<Wrong> {
        if self.right.len() < 2 || self.right.contains(&true) {
            return None;
        }
        let shared = |turn: &Wrong| {
            fitting
                .iter()
                .all(|row| row.iter().any(|turns| turns.contains(turn)))
        };
        self.named.iter().copied().chain(powers()).find(shared)
    }

    /// For each failing row, the explanation that explains most rows.
    fn chosen(&self, common: Option<Wrong>, fitting: &[Vec<Turns>]) -> Explained {
        let explained = |turns: &Turns| fitting.iter().filter(|row| row.contains(turns)).count();
        let rows = fitting
            .iter()
            .enumerate()
            .map(|(row, fitting)| {
                if self.right[row] {
                    return None;
                }
                let usable: Vec<_> = fitting
                    .iter()
                    .filter(|turns| common.is_none_or(|common| turns.contains(&common)))
                    .collect();
                let most = usable
                    .iter()
                    .map(|turns| explained(turns))
                    .max()
                    .unwrap_or(0);
                let best: Vec<_> = usable
                    .into_iter()
                    .filter(|turns| explained(turns) == most)
                    .collect();
                let nothing = Explanation {
                    turns: Vec::new(),
                    rival: None,
                };
                let mut explanation = self.best(&best).unwrap_or(nothing);
                if let Some(common) = common {
                    explanation.turns.retain(|turn| *turn != common);
                    explanation.rival = None;
                    if explanation.turns.is_empty() {
                        return None;
                    }
                }
                Some(explanation)
            })
            .collect();
        let whole = common.map(|turn| Explanation {
            turns: vec![turn],
            rival: None,
        });
        Explained { whole, rows }
    }
}
