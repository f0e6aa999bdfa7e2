//! Each marker's lines: as the first marker of sheets, and as the second.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::agreement::{Agreement, Pair};
use super::verdict::Verdict;
use super::{Compared, Sheet, sole};

/// One marker beside the colleagues who marked the same sheets.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Person {
    /// Who.
    pub person: i64,
    /// Everyone who gave the other mark of these sheets, by number. With one
    /// alone, a difference may be either's.
    pub colleagues: Vec<i64>,
    /// The statistics; second − first, whichever of them the person gave.
    pub agreement: Agreement,
    /// What they come to.
    pub verdicts: Vec<Verdict>,
}

/// Those who marked sheets first, alone.
pub(super) fn first_markers(totals: &[(&Sheet, Compared)], tolerance: i64) -> Vec<Person> {
    let lines = totals.iter().filter_map(|(sheet, both)| {
        let marker = sole(&sheet.first_markers)?;
        Some((marker, vec![sheet.second_marker], both.pair()))
    });
    people(lines, tolerance)
}

/// Those who marked sheets a second time.
pub(super) fn second_markers(totals: &[(&Sheet, Compared)], tolerance: i64) -> Vec<Person> {
    let lines = totals.iter().map(|(sheet, both)| {
        let colleagues = sheet.first_markers.clone();
        (sheet.second_marker, colleagues, both.pair())
    });
    people(lines, tolerance)
}

/// From (who, whose the other marks are, the marks).
fn people(lines: impl Iterator<Item = (i64, Vec<i64>, Pair)>, tolerance: i64) -> Vec<Person> {
    let mut each: BTreeMap<i64, (BTreeSet<i64>, Vec<Pair>)> = BTreeMap::new();
    for (person, others, pair) in lines {
        let (colleagues, pairs) = each.entry(person).or_default();
        colleagues.extend(others);
        pairs.push(pair);
    }
    each.into_iter()
        .filter_map(|(person, (colleagues, pairs))| {
            let agreement = Agreement::of(&pairs, tolerance)?;
            Some(Person {
                person,
                colleagues: colleagues.into_iter().collect(),
                verdicts: Verdict::of(&agreement),
                agreement,
            })
        })
        .collect()
}
