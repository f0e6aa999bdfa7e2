//! Which sheets of a class are one set of readings.

use super::agreement::{Agreement, Kinship};
use super::scatter::{Scatter, likelihood_of_scatter};
use super::taken::Taken;
use super::{Declared, Question, words};
use crate::reading::LEAST_PROBABLE;
use crate::reading::prior::agreement as prior;
use crate::text::folded;

/// The sheets of a class.
pub(super) struct Class<'s> {
    declared: &'s [Declared<'s>],
    taken: &'s [Taken],
    /// How many pairs of one method declare no common set.
    pairs: usize,
    /// Those of them that may be one set of readings.
    links: Vec<([usize; 2], Agreement)>,
    scatter: Scatter,
}

/// A set of sheets that may be one set of readings.
struct Candidate {
    sheets: Vec<usize>,
    agreement: Agreement,
    probability: f64,
    /// The chance that as many rows agree by accident.
    by_chance: f64,
}

impl<'s> Class<'s> {
    pub(super) fn new(declared: &'s [Declared<'s>], taken: &'s [Taken]) -> Self {
        let mut class = Self {
            declared,
            taken,
            pairs: 0,
            links: Vec::new(),
            scatter: Scatter::new(declared.len()),
        };
        for other in 0..declared.len() {
            for one in 0..other {
                class.add([one, other]);
            }
        }
        class
    }

    /// Takes in what two sheets have in common.
    fn add(&mut self, sheets: [usize; 2]) {
        let [one, other] = sheets;
        if self.taken[one].method != self.taken[other].method
            || self.declared[one].declares_with(&self.declared[other])
        {
            return;
        }
        self.pairs += 1;
        let agreement = self.agreement(&sheets);
        self.scatter.add(sheets, likelihood_of_scatter(&agreement));
        // Whatever the scatter turns out to be, it is one of the prior's.
        let odds = (0..prior::SCATTER.len())
            .map(|scatter| agreement.if_taken_over(scatter) / agreement.if_own(scatter))
            .fold(0.0, f64::max);
        let may_be = probability(self.prior_of_one_set(&sheets) * odds) >= LEAST_PROBABLE;
        if agreement.agreeing() > 0 && (may_be || agreement.is_whole()) {
            self.links.push((sheets, agreement));
        }
    }

    fn agreement(&self, sheets: &[usize]) -> Agreement {
        let taken: Vec<_> = sheets.iter().map(|sheet| &self.taken[*sheet]).collect();
        let kits = sheets.iter().map(|sheet| folded(self.declared[*sheet].kit));
        let kits: Vec<String> = kits.collect();
        let kinship = if kits.iter().any(String::is_empty) {
            Kinship::Unknown
        } else if kits.iter().all(|kit| *kit == kits[0]) {
            Kinship::SameKit
        } else {
            Kinship::OtherKit
        };
        Agreement::of(&taken, kinship)
    }

    /// One question for each set of sheets that agree, from the most probable
    /// pair outwards.
    pub(super) fn questions(&self) -> Vec<Question> {
        let mut links: Vec<Candidate> = self
            .links
            .iter()
            .map(|(sheets, agreement)| self.candidate(sheets.to_vec(), agreement.clone()))
            .filter(|link| link.probability >= LEAST_PROBABLE || link.agreement.is_whole())
            .collect();
        links.sort_by(|one, other| other.probability.total_cmp(&one.probability));
        let pairs: Vec<Vec<usize>> = links.iter().map(|link| link.sheets.clone()).collect();
        let mut asked: Vec<Vec<usize>> = Vec::new();
        let mut questions = Vec::new();
        for link in links {
            let within = |set: &Vec<usize>| link.sheets.iter().all(|sheet| set.contains(sheet));
            if asked.iter().any(within) {
                continue;
            }
            let grown = self.grown(link, &pairs);
            asked.push(grown.sheets.clone());
            if grown.probability >= LEAST_PROBABLE {
                questions.push(self.question(&grown));
            }
        }
        questions
    }

    /// Adds sheets that are linked with all of a set, as long as the set does
    /// not become less probable for it. All that fit are tried at once first:
    /// many together can be telling where one more is not.
    fn grown(&self, link: Candidate, links: &[Vec<usize>]) -> Candidate {
        let joins = |set: &[usize], sheet: usize| {
            let is_linked =
                |member: &usize| links.contains(&vec![sheet.min(*member), sheet.max(*member)]);
            !set.contains(&sheet) && set.iter().all(is_linked)
        };
        let mut all = link.sheets.clone();
        for sheet in 0..self.taken.len() {
            if joins(&all, sheet) {
                all.push(sheet);
            }
        }
        let mut best = self.more_probable(link, all);
        for sheet in 0..self.taken.len() {
            if joins(&best.sheets, sheet) {
                let wider = [&best.sheets[..], &[sheet]].concat();
                best = self.more_probable(best, wider);
            }
        }
        best
    }

    fn more_probable(&self, best: Candidate, mut wider: Vec<usize>) -> Candidate {
        wider.sort_unstable();
        let agreement = self.agreement(&wider);
        let wider = self.candidate(wider, agreement);
        if wider.probability >= best.probability {
            wider
        } else {
            best
        }
    }

    fn candidate(&self, sheets: Vec<usize>, agreement: Agreement) -> Candidate {
        let weights = self.scatter.weights(&sheets);
        let average = |at: &dyn Fn(usize) -> f64| -> f64 {
            let values = weights.iter().enumerate();
            values.map(|(scatter, weight)| weight * at(scatter)).sum()
        };
        let odds = self.prior_of_one_set(&sheets) * average(&|s| agreement.if_taken_over(s))
            / average(&|s| agreement.if_own(s));
        let by_chance = average(&|s| agreement.as_many_by_chance(s));
        Candidate {
            sheets,
            agreement,
            probability: probability(odds),
            by_chance,
        }
    }

    /// The prior that a certain set of m of the n sheets of its method is one:
    /// the sets of m expected in a class, shared among all C(n, m).
    fn prior_of_one_set(&self, sheets: &[usize]) -> f64 {
        let method = self.taken[sheets[0]].method;
        let of_method = self
            .taken
            .iter()
            .filter(|taken| taken.method == method)
            .count();
        let number = |n: usize| f64::from(u32::try_from(n).unwrap_or(u32::MAX));
        let sets: f64 = (0..sheets.len())
            .map(|i| number(of_method - i) / number(i + 1))
            .product();
        let joining: f64 = sheets.iter().skip(2).map(|_| prior::SPREADS).product();
        number(of_method) * prior::COPIES * joining / sets
    }

    fn question(&self, found: &Candidate) -> Question {
        let declares = |sheet: &usize| !self.declared[*sheet].shared.trim().is_empty();
        let sheets = found.sheets.iter().enumerate();
        Question {
            rows: sheets
                .map(|(at, sheet)| (*sheet, found.agreement.rows(at)))
                .collect(),
            sheets: found.sheets.clone(),
            probability: found.probability,
            sentence: words::agreeing(
                found.agreement.agreeing(),
                found.agreement.comparable(),
                found.sheets.iter().any(declares),
            ),
            why: words::by_chance(found.sheets.len(), found.by_chance, self.pairs),
        }
    }
}

/// Of odds that are beyond all numbers, or that nothing can be told of (where
/// either way the sheets are all but impossible).
fn probability(odds: f64) -> f64 {
    if odds.is_nan() {
        0.0
    } else if odds.is_infinite() {
        1.0
    } else {
        odds / (1.0 + odds)
    }
}
