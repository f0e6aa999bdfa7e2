//! Which differences need a word, by hand and by what must always hold.

use analysis::moderation::settling::{MarkedTwice, Tolerance, Word, open};
use proptest::prelude::*;

const TOLERANCE: Tolerance = Tolerance { total: 2, point: 1 };

fn point(first: i64, second: i64) -> MarkedTwice {
    MarkedTwice {
        first: Some(first),
        second: Some(second),
        word: None,
    }
}

fn spoken(first: i64, second: i64, word: Word) -> MarkedTwice {
    MarkedTwice {
        word: Some(word),
        ..point(first, second)
    }
}

#[test]
fn within_both_tolerances_nothing_is_open() {
    let points = [point(2, 3), point(4, 4), point(1, 2)];
    assert!(open(&points, false, TOLERANCE).is_settled());
}

#[test]
fn a_point_beyond_its_tolerance_is_open_though_the_total_agrees() {
    let points = [point(4, 2), point(1, 3)];
    let open = open(&points, false, TOLERANCE);
    assert_eq!((open.points, open.between), (vec![0, 1], None));
}

#[test]
fn many_small_differences_make_the_total_open() {
    let points = [point(1, 2), point(0, 1), point(2, 3)];
    let open = open(&points, false, TOLERANCE);
    assert_eq!((open.points, open.between), (Vec::new(), Some(3)));
}

#[test]
fn a_word_on_one_of_them_takes_its_share_out_of_the_total() {
    let points = [spoken(1, 2, Word::Agreed(2)), point(0, 1), point(2, 3)];
    assert!(open(&points, false, TOLERANCE).is_settled());
}

#[test]
fn a_word_does_not_hide_what_it_cancelled() {
    // The first lies 3 under and the rest 3 over, each by 1: once the first
    // is decided, 3 marks are left between the two.
    let points = [
        spoken(3, 0, Word::FirstStands),
        point(0, 1),
        point(0, 1),
        point(0, 1),
    ];
    let open = open(&points, false, TOLERANCE);
    assert_eq!((open.points, open.between), (Vec::new(), Some(3)));
}

#[test]
fn what_one_of_the_two_has_not_marked_is_never_open() {
    let missing = MarkedTwice {
        second: None,
        ..point(6, 0)
    };
    assert!(open(&[missing], false, TOLERANCE).is_settled());
    assert_eq!(missing.difference(), None);
}

#[test]
fn a_mark_that_was_agreed_holds_and_nothing_else_moves_one() {
    assert_eq!(spoken(2, 5, Word::Agreed(4)).settled(), Some(4));
    assert_eq!(spoken(2, 5, Word::FirstStands).settled(), Some(2));
    assert_eq!(spoken(2, 5, Word::MarkedAgain).settled(), Some(2));
    assert_eq!(point(2, 5).settled(), Some(2));
}

fn any_point() -> impl Strategy<Value = MarkedTwice> {
    let word = prop_oneof![
        Just(None),
        Just(Some(Word::FirstStands)),
        Just(Some(Word::MarkedAgain)),
        (0i64..7).prop_map(|marks| Some(Word::Agreed(marks))),
    ];
    let mark = || prop::option::weighted(0.9, 0i64..7);
    (mark(), mark(), word).prop_map(|(first, second, word)| MarkedTwice {
        first,
        second,
        word,
    })
}

proptest! {
    #[test]
    fn swapping_the_markers_leaves_the_same_things_open(points in prop::collection::vec(any_point(), 0..12)) {
        let swapped: Vec<MarkedTwice> = points
            .iter()
            .map(|point| MarkedTwice { first: point.second, second: point.first, ..*point })
            .collect();
        let (one, other) = (open(&points, false, TOLERANCE), open(&swapped, false, TOLERANCE));
        prop_assert_eq!(one.points, other.points);
        prop_assert_eq!(one.between, other.between.map(|between| -between));
    }

    #[test]
    fn a_word_on_every_point_or_on_the_whole_leaves_nothing_open(
        mut points in prop::collection::vec(any_point(), 0..12),
    ) {
        prop_assert!(open(&points, true, TOLERANCE).is_settled());
        for point in &mut points {
            point.word.get_or_insert(Word::FirstStands);
        }
        prop_assert!(open(&points, false, TOLERANCE).is_settled());
    }

    #[test]
    fn a_wider_tolerance_never_opens_a_point(points in prop::collection::vec(any_point(), 0..12)) {
        let wider = Tolerance { total: 3, point: 2 };
        let (narrow, wide) = (open(&points, false, TOLERANCE), open(&points, false, wider));
        prop_assert!(wide.points.iter().all(|at| narrow.points.contains(at)));
    }
}
