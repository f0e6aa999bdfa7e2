use std::collections::BTreeSet;

use analysis::moderation::allot::{Sheet, allot};
use proptest::prelude::*;

fn sheet(marked_by: &[i64], taught_by: &[i64]) -> Sheet {
    Sheet {
        marked_by: marked_by.iter().copied().collect(),
        taught_by: taught_by.iter().copied().collect(),
    }
}

fn loads(has: &[Option<usize>], markers: usize) -> Vec<usize> {
    let load = |marker| has.iter().filter(|has| **has == Some(marker)).count();
    (0..markers).map(load).collect()
}

#[test]
fn work_is_shared_evenly() {
    let sheets: Vec<Sheet> = (0..14)
        .map(|at| sheet(&[1 + at % 4], &[1 + at % 4]))
        .collect();
    let mut loads = loads(&allot(&sheets, &[1, 2, 3, 4]), 4);
    loads.sort_unstable();
    assert_eq!(loads, [3, 3, 4, 4]);
}

/// Taking the first free marker each time would leave one of them without
/// work: sheets must be passed on.
#[test]
fn work_is_passed_on_until_it_is_even() {
    let mut sheets = vec![sheet(&[3], &[]); 4];
    sheets.extend(vec![sheet(&[1], &[]); 2]);
    sheets.extend(vec![sheet(&[1, 3], &[]); 3]);
    let has = allot(&sheets, &[1, 2, 3]);
    let mut loads = loads(&has, 3);
    loads.sort_unstable();
    // Only marker 2 may have the last three, and only 2 and 3 the two before.
    assert_eq!(loads, [2, 3, 4]);
}

#[test]
fn nobody_is_left_for_a_sheet_that_all_marked_first() {
    let has = allot(&[sheet(&[1, 2], &[]), sheet(&[1], &[])], &[1, 2]);
    assert_eq!(has, [None, Some(1)]);
    assert_eq!(allot(&[sheet(&[], &[])], &[]), [None]);
}

#[test]
fn who_teaches_the_class_has_it_only_where_nobody_else_may() {
    let has = allot(&[sheet(&[1], &[2]), sheet(&[1, 3], &[2])], &[1, 2, 3]);
    assert_eq!(has, [Some(2), Some(1)]);
}

fn any_sheets() -> impl Strategy<Value = Vec<Sheet>> {
    let people = || prop::collection::btree_set(0..6_i64, 0..4);
    let sheet = (people(), people()).prop_map(|(marked_by, taught_by)| Sheet {
        marked_by,
        taught_by,
    });
    prop::collection::vec(sheet, 0..40)
}

/// The least that the largest share can be, by trying: whether all sheets can
/// be shared with at most so many to each (Hall's condition over all sets of
/// markers, with six of them 64 sets).
fn least_largest(may: &[BTreeSet<usize>], markers: usize) -> usize {
    (0..=may.len())
        .find(|most| {
            (0..1_u32 << markers).all(|set| {
                let inside = |marker: &usize| set >> marker & 1 == 1;
                let bound = may
                    .iter()
                    .filter(|may| !may.is_empty() && may.iter().all(inside))
                    .count();
                bound <= most * set.count_ones() as usize
            })
        })
        .expect("all of them to one marker is the most")
}

proptest! {
    #[test]
    fn nobody_gets_what_they_marked_and_the_largest_share_is_the_least_possible(sheets in any_sheets()) {
        let markers: Vec<i64> = (0..6).collect();
        let has = allot(&sheets, &markers);
        let mut may = Vec::new();
        for (sheet, has) in sheets.iter().zip(&has) {
            let free: BTreeSet<usize> = (0..6).filter(|at| !sheet.marked_by.contains(&markers[*at])).collect();
            let strangers: BTreeSet<usize> = free.iter().copied().filter(|at| !sheet.taught_by.contains(&markers[*at])).collect();
            let allowed = if strangers.is_empty() { free } else { strangers };
            match has {
                Some(at) => prop_assert!(allowed.contains(at)),
                None => prop_assert!(allowed.is_empty()),
            }
            may.push(allowed);
        }
        let largest = loads(&has, 6).into_iter().max().unwrap_or(0);
        prop_assert_eq!(largest, least_largest(&may, 6));
    }
}
