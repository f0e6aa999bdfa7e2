//! Which sheets of a class are one set of readings.

use super::agreement::{Agreement, Kinship};
use super::taken::Taken;
use super::{Declared, Question, words};
use crate::reading::LEAST_PROBABLE;
use crate::reading::prior::agreement as prior;

/// Probabilities at each scatter of the prior.
type ByScatter = [f64; prior::SCATTER.len()];

/// Two sheets of one method that declare no common set.
struct Pair {
    sheets: [usize; 2],
    agreement: Agreement,
    /// ln likelihood of each scatter, by what the two have in common.
    scatter: ByScatter,
}

/// The sheets of a class.
pub(super) struct Class<'s> {
    declared: &'s [Declared<'s>],
    taken: &'s [Taken],
    pairs: Vec<Pair>,
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
            pairs: Vec::new(),
        };
        let sheets = 0..declared.len();
        let pairs = sheets
            .clone()
            .flat_map(|one| (one + 1..declared.len()).map(move |o| [one, o]));
        class.pairs = pairs.filter_map(|pair| class.pair(pair)).collect();
        class
    }

    fn pair(&self, sheets: [usize; 2]) -> Option<Pair> {
        let [one, other] = sheets;
        if self.taken[one].method != self.taken[other].method
            || self.declared[one].declares_with(&self.declared[other])
        {
            return None;
        }
        let agreement = self.agreement(&sheets);
        Some(Pair {
            sheets,
            scatter: likelihood_of_scatter(&agreement),
            agreement,
        })
    }

    fn agreement(&self, sheets: &[usize]) -> Agreement {
        let taken: Vec<_> = sheets.iter().map(|sheet| &self.taken[*sheet]).collect();
        let kits = sheets.iter().map(|sheet| label(self.declared[*sheet].kit));
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
            .pairs
            .iter()
            .filter(|pair| pair.agreement.agreeing() > 0)
            .map(|pair| self.candidate(pair.sheets.to_vec(), pair.agreement.clone()))
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
        let weights = self.weights_of_scatter(&sheets);
        let average = |at: &dyn Fn(usize) -> f64| -> f64 {
            let values = weights.iter().enumerate();
            values.map(|(scatter, weight)| weight * at(scatter)).sum()
        };
        let odds = self.prior_of_one_set(&sheets) * average(&|s| agreement.if_taken_over(s))
            / average(&|s| agreement.if_own(s));
        let probability = if odds.is_finite() {
            odds / (1.0 + odds)
        } else {
            1.0
        };
        let by_chance = average(&|s| agreement.as_many_by_chance(s));
        Candidate {
            sheets,
            agreement,
            probability,
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

    /// What the pairs apart from these sheets tell of the scatter. They are
    /// not independent: n readings of one thing make n − 1 differences, not
    /// n (n − 1)/2, and weigh accordingly.
    fn weights_of_scatter(&self, apart_from: &[usize]) -> ByScatter {
        let others = self
            .pairs
            .iter()
            .filter(|pair| pair.sheets.iter().all(|sheet| !apart_from.contains(sheet)));
        let mut ln = prior::SCATTER.map(|(_, weight): (f64, f64)| weight.ln());
        let left = self.taken.len().saturating_sub(apart_from.len()).max(2);
        let share = 2.0 / f64::from(u32::try_from(left).unwrap_or(u32::MAX));
        for pair in others {
            for (ln, told) in ln.iter_mut().zip(pair.scatter) {
                *ln += share * told;
            }
        }
        let largest = ln.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights = ln.map(|ln| (ln - largest).exp());
        let total: f64 = weights.iter().sum();
        weights.map(|weight| weight / total)
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
            why: words::by_chance(found.sheets.len(), found.by_chance, self.pairs.len()),
        }
    }
}

/// A kit's label, however it was spaced and spelled.
fn label(kit: &str) -> String {
    let words: Vec<_> = kit.split_whitespace().collect();
    words.join(" ").to_lowercase()
}

/// ln likelihood of each scatter. Sheets that agree in everything may be one
/// set, and are left out; what the others say is put right for that.
fn likelihood_of_scatter(agreement: &Agreement) -> ByScatter {
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
