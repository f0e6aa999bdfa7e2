//! Which sheets of a round are marked a second time.
//!
//! The rules, in their order. A sheet is taken once, by the first rule that
//! it meets; where sheets are equal, the first by its [`ticket`] is taken.
//!
//! 1. The highest total.
//! 2. The lowest total above nought.
//! 3. The total nearest to the middle one of all.
//! 4. Down the tickets: each sheet of a class that has none yet.
//! 5. Down the tickets: each sheet of a marker who has none yet.
//! 6. Down the tickets: any sheet, until there are enough.
//!
//! Rules 1 to 5 are kept even where they take more sheets than were asked
//! for. Highest, lowest and every marker: common practice. The middle, and the
//! order: our choice.
//!
//! What comes out is in the order of the tickets, never in that of the rules:
//! the order in which sheets are marked must say nothing of their marks.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use super::ticket::ticket;

/// A sheet that may be drawn. Classes and people go by the caller's numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// What its ticket is made from; no other sheet of the draw has it.
    pub name: String,
    /// Its class.
    pub class: i64,
    /// Who marked it first: everyone with a mark that stands on it.
    pub markers: Vec<i64>,
    /// All its marks.
    pub total: i64,
}

coded! {
    /// The rule by which a sheet was taken.
    pub enum Rule {
        /// Every sheet is taken.
        All = "all",
        /// It has the highest total.
        Highest = "highest",
        /// It has the lowest total above nought.
        Lowest = "lowest",
        /// Its total is the nearest to the middle one.
        Middle = "middle",
        /// Its class had none yet.
        Class = "class",
        /// One of its markers had none yet.
        Marker = "marker",
        /// By its ticket alone.
        Random = "random",
    }
}

/// A sheet that was taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawn {
    /// Which of the candidates (from 0).
    pub at: usize,
    /// Its ticket.
    pub ticket: String,
    /// Why it was taken.
    pub rule: Rule,
}

/// Draws a sample of `size` sheets, or of all where that is `None`: by ticket.
///
/// More than `size` where the rules need more; fewer where there are not so
/// many. The same candidates with the same seed give the same sample, in
/// whatever order they come.
#[must_use]
pub fn draw(candidates: &[Candidate], size: Option<usize>, seed: &str) -> Vec<Drawn> {
    let mut by_ticket: Vec<_> = (0..candidates.len())
        .map(|at| (ticket(seed, &candidates[at].name), at))
        .collect();
    by_ticket.sort();
    let order: Vec<usize> = by_ticket.iter().map(|(_, at)| *at).collect();
    let rules = match size {
        None => vec![Some(Rule::All); candidates.len()],
        Some(size) => taken(candidates, &order, size),
    };
    by_ticket
        .into_iter()
        .filter_map(|(ticket, at)| {
            let rule = rules[at]?;
            Some(Drawn { at, ticket, rule })
        })
        .collect()
}

/// For each candidate the rule by which it is taken; `order` has them by
/// ticket.
fn taken(candidates: &[Candidate], order: &[usize], size: usize) -> Vec<Option<Rule>> {
    let mut rules = vec![None; candidates.len()];
    let extremes = [
        (highest(candidates, order), Rule::Highest),
        (lowest(candidates, order), Rule::Lowest),
        (middle(candidates, order), Rule::Middle),
    ];
    for (at, rule) in extremes {
        if let Some(at) = at {
            rules[at].get_or_insert(rule);
        }
    }
    cover(&mut rules, order, Rule::Class, |at| {
        vec![candidates[at].class]
    });
    cover(&mut rules, order, Rule::Marker, |at| {
        candidates[at].markers.clone()
    });
    let mut left = size.saturating_sub(rules.iter().flatten().count());
    for at in order {
        if left > 0 && rules[*at].is_none() {
            rules[*at] = Some(Rule::Random);
            left -= 1;
        }
    }
    rules
}

fn highest(candidates: &[Candidate], order: &[usize]) -> Option<usize> {
    let all = order.iter().copied();
    all.min_by_key(|at| Reverse(candidates[*at].total))
}

fn lowest(candidates: &[Candidate], order: &[usize]) -> Option<usize> {
    let above_nought = order.iter().copied().filter(|at| candidates[*at].total > 0);
    above_nought.min_by_key(|at| candidates[*at].total)
}

fn middle(candidates: &[Candidate], order: &[usize]) -> Option<usize> {
    let mut totals: Vec<i64> = candidates.iter().map(|sheet| sheet.total).collect();
    totals.sort_unstable();
    let (lower, upper) = (
        totals.get(totals.len().checked_sub(1)? / 2)?,
        totals.get(totals.len() / 2)?,
    );
    // Twice over, so that the mean of two middle totals is a whole number.
    let twice = lower + upper;
    let all = order.iter().copied();
    all.min_by_key(|at| (2 * candidates[*at].total - twice).abs())
}

/// Goes down the tickets and takes each sheet that has something of `parts`
/// which no taken sheet has.
fn cover(
    rules: &mut [Option<Rule>],
    order: &[usize],
    rule: Rule,
    parts: impl Fn(usize) -> Vec<i64>,
) {
    let taken = order.iter().filter(|at| rules[**at].is_some());
    let mut covered: BTreeSet<i64> = taken.flat_map(|at| parts(*at)).collect();
    for at in order {
        let parts = parts(*at);
        if parts.iter().any(|part| !covered.contains(part)) {
            rules[*at].get_or_insert(rule);
            covered.extend(parts);
        }
    }
}
