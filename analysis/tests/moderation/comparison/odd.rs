//! Rounds that are small, incomplete, shared, or agree too well.

use analysis::moderation::comparison::{Verdict, compare};
use analysis::moderation::settling::Tolerance;

use super::{TOLERANCE, near, person, plain};

#[test]
fn nothing_to_compare_is_nothing() {
    let compared = compare(&[], TOLERANCE);
    assert_eq!(compared.whole, None);
    assert!(compared.verdicts.is_empty() && compared.points.is_empty());
}

#[test]
fn one_sheet_has_a_difference_and_no_interval() {
    let compared = compare(&plain(1, 2, &[(10, 17)]), TOLERANCE);
    let whole = compared.whole.unwrap();
    assert!(near(whole.mean.value, 7.0));
    assert_eq!((whole.mean.interval95, whole.sd), (None, None));
    assert_eq!(compared.verdicts, [Verdict::TooFew { reach: None }]);
}

#[test]
fn few_sheets_that_cancel_are_said_to() {
    let compared = compare(
        &plain(1, 2, &[(10, 14), (10, 6), (8, 11), (11, 8)]),
        TOLERANCE,
    );
    let cancelling = Verdict::Cancelling {
        outside: 4,
        above: 2,
        below: 2,
    };
    assert!(matches!(compared.verdicts[0], Verdict::TooFew { .. }));
    assert_eq!(compared.verdicts[1], cancelling);
}

#[test]
fn few_sheets_that_lean_one_way_do_not_cancel() {
    let totals = [(10, 13), (8, 11), (9, 13), (11, 10), (12, 15)];
    let compared = compare(&plain(1, 2, &totals), TOLERANCE);
    assert!(matches!(
        compared.verdicts[..],
        [Verdict::TooFew { reach: Some(_) }]
    ));
}

/// Two of six is not more than a third, three of seven is.
#[test]
fn sheets_that_are_apart_under_a_wide_mean_are_scattered() {
    let totals = [(10, 10), (8, 8), (9, 9), (11, 11), (12, 18), (13, 20)];
    let scattered = |totals: &[(i64, i64)]| {
        let compared = compare(&plain(1, 2, totals), TOLERANCE);
        compared
            .verdicts
            .contains(&Verdict::Scattered { outside: 3 })
    };
    assert!(!scattered(&totals));
    let more = [
        (10, 10),
        (8, 8),
        (9, 9),
        (11, 11),
        (12, 22),
        (13, 20),
        (14, 11),
    ];
    assert!(scattered(&more));
}

#[test]
fn one_sheet_outside_in_six_is_not_scattered() {
    let totals = [(10, 10), (11, 14), (12, 12), (9, 8), (14, 14), (15, 16)];
    let compared = compare(&plain(1, 2, &totals), TOLERANCE);
    assert!(matches!(
        compared.verdicts[..],
        [Verdict::NoDifferenceShown { .. }]
    ));
}

#[test]
fn scatter_of_a_shown_difference_is_no_cancelling() {
    let totals = [
        (5, 9),
        (6, 11),
        (8, 12),
        (9, 14),
        (11, 14),
        (13, 17),
        (15, 19),
    ];
    let compared = compare(&plain(1, 2, &totals), TOLERANCE);
    assert!(matches!(compared.verdicts[0], Verdict::SecondHigher { .. }));
    let hidden = |verdict: &Verdict| {
        matches!(
            verdict,
            Verdict::Scattered { .. } | Verdict::Cancelling { .. }
        )
    };
    assert!(!compared.verdicts.iter().any(hidden));
}

#[test]
fn marks_that_are_all_the_same_are_said_to_be() {
    let totals = [(5, 5), (6, 6), (8, 8), (9, 9), (11, 11), (13, 13)];
    let compared = compare(&plain(1, 2, &totals), TOLERANCE);
    assert_eq!(compared.verdicts, [Verdict::Same]);
    let exact = Tolerance { total: 0, point: 0 };
    assert_eq!(
        compare(&plain(1, 2, &totals), exact).verdicts,
        [Verdict::Same]
    );
    assert_eq!(compared.points[0].part, None);
}

#[test]
fn totals_that_one_marker_always_gives_alike_have_no_kappa() {
    let totals = [(1, 1), (1, 0), (1, 1), (1, 1), (1, 0), (1, 1), (1, 1)];
    let found = compare(&plain(1, 2, &totals), TOLERANCE).coefficients;
    assert_eq!(found.kappa, None);
    assert!(found.icc.is_some());
}

#[test]
fn sheet_without_some_mark_counts_only_in_its_other_points() {
    let mut sheets = plain(1, 2, &[(5, 6), (7, 7), (8, 9)]);
    sheets[1].marks[0].second = None;
    let compared = compare(&sheets, TOLERANCE);
    assert_eq!(compared.incomplete, [2]);
    assert_eq!(compared.whole.unwrap().n, 2);
    let by_point = |point| compared.points.iter().find(|p| p.point == point).unwrap();
    assert_eq!((by_point(10).agreement.n, by_point(20).agreement.n), (2, 3));
}

#[test]
fn sheet_that_two_marked_first_is_in_neither_first_marker_line() {
    let mut sheets = plain(1, 3, &[(5, 6), (7, 7), (8, 9)]);
    sheets[0].first_markers = vec![1, 2];
    let compared = compare(&sheets, TOLERANCE);
    assert_eq!(compared.shared, [1]);
    assert_eq!(compared.first_markers.len(), 1);
    assert_eq!(person(&compared.first_markers, 1).agreement.n, 2);
    let second = person(&compared.second_markers, 3);
    assert_eq!(
        (second.agreement.n, &second.colleagues[..]),
        (3, &[1, 2][..])
    );
}
