//! Who marks which sheet a second time: evenly, and never somebody who marked
//! it first.
//!
//! People who share work are even when nobody could pass a sheet on, straight
//! or through others, to somebody who has two fewer: Harvey, Ladner, Lovász
//! and Tamir (2006), *Semi-matchings for bipartite graphs and load balancing*,
//! Journal of Algorithms 59, 53-78, theorem 3.1.

use std::collections::{BTreeSet, VecDeque};

/// A sheet to be marked a second time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Who may not have it: everybody who ever marked any point of it.
    pub marked_by: BTreeSet<i64>,
    /// Who should not have it where somebody else may: who teaches the class.
    pub taught_by: BTreeSet<i64>,
}

/// For each sheet the place of its second marker among `markers`; `None`
/// where all of them marked it first.
///
/// As even as it can be. Sheets and markers are taken in the order in which
/// they come, so whoever wants the same answer again brings them in the same
/// order: by ticket.
#[must_use]
pub fn allot(sheets: &[Sheet], markers: &[i64]) -> Vec<Option<usize>> {
    let may: Vec<Vec<usize>> = sheets
        .iter()
        .map(|sheet| may_have(sheet, markers))
        .collect();
    let mut has: Vec<Option<usize>> = vec![None; sheets.len()];
    let mut load = vec![0_usize; markers.len()];
    for (at, may) in may.iter().enumerate() {
        has[at] = may.iter().copied().min_by_key(|marker| load[*marker]);
        if let Some(marker) = has[at] {
            load[marker] += 1;
        }
    }
    while let Some(chain) = chain(&may, &has, &load) {
        for (sheet, marker) in chain {
            if let Some(before) = has[sheet].replace(marker) {
                load[before] -= 1;
            }
            load[marker] += 1;
        }
    }
    has
}

/// The markers who may have a sheet, by their places.
fn may_have(sheet: &Sheet, markers: &[i64]) -> Vec<usize> {
    let not_first = (0..markers.len()).filter(|at| !sheet.marked_by.contains(&markers[*at]));
    let not_first: Vec<usize> = not_first.collect();
    let stranger = |at: &usize| !sheet.taught_by.contains(&markers[*at]);
    let strangers: Vec<usize> = not_first.iter().copied().filter(stranger).collect();
    if strangers.is_empty() {
        not_first
    } else {
        strangers
    }
}

/// Sheets that change hands, each with its new marker, so that somebody with
/// much work has one sheet less and somebody with two fewer has one more.
fn chain(may: &[Vec<usize>], has: &[Option<usize>], load: &[usize]) -> Option<Vec<(usize, usize)>> {
    (0..load.len()).find_map(|from| chain_from(from, may, has, load))
}

/// The same for one marker: the shortest such chain.
fn chain_from(
    from: usize,
    may: &[Vec<usize>],
    has: &[Option<usize>],
    load: &[usize],
) -> Option<Vec<(usize, usize)>> {
    // The sheet by which each marker was reached.
    let mut reached_by: Vec<Option<usize>> = vec![None; load.len()];
    let mut queue = VecDeque::from([from]);
    while let Some(giver) = queue.pop_front() {
        if load[giver] + 2 <= load[from] {
            return Some(back_to(from, giver, &reached_by, has));
        }
        let sheets = (0..may.len()).filter(|sheet| has[*sheet] == Some(giver));
        for sheet in sheets {
            for taker in &may[sheet] {
                if *taker != from && reached_by[*taker].is_none() {
                    reached_by[*taker] = Some(sheet);
                    queue.push_back(*taker);
                }
            }
        }
    }
    None
}

fn back_to(
    from: usize,
    last: usize,
    reached_by: &[Option<usize>],
    has: &[Option<usize>],
) -> Vec<(usize, usize)> {
    let mut chain = Vec::new();
    let mut taker = last;
    while taker != from {
        let Some(sheet) = reached_by[taker] else {
            break;
        };
        chain.push((sheet, taker));
        let Some(giver) = has[sheet] else { break };
        taker = giver;
    }
    chain
}
