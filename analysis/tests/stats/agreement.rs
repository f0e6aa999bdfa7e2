//! Two markers: what shifting, swapping and shuffling may and may not change.

use analysis::stats::agreement::{
    Differences, count_within, differences, intraclass_correlation, linear, weighted_kappa,
};
use proptest::prelude::*;

use super::{both_near, near};

type Pairs = Vec<(f64, f64)>;

/// Marks of two markers: whole and half marks up to 20.
fn marks() -> impl Strategy<Value = Pairs> {
    let mark = || (0_u32..=40).prop_map(|halves| f64::from(halves) / 2.0);
    prop::collection::vec((mark(), mark()), 3..30)
}

/// Marks and the same marks in another order.
fn shuffled() -> impl Strategy<Value = (Pairs, Pairs)> {
    marks().prop_flat_map(|marks| (Just(marks.clone()), Just(marks).prop_shuffle()))
}

/// Kappa with its standard error, and the correlation with the ends of its
/// interval: what a common shift, a swap of the markers or another order must
/// not touch.
fn untouched(pairs: &[(f64, f64)]) -> [Option<f64>; 5] {
    let kappa = weighted_kappa(pairs, linear);
    let table: Vec<Vec<f64>> = pairs.iter().map(|(x, y)| vec![*x, *y]).collect();
    let icc = intraclass_correlation(&table);
    let ends = icc.and_then(|icc| icc.interval95);
    [
        kappa.map(|kappa| kappa.value),
        kappa.map(|kappa| kappa.se),
        icc.map(|icc| icc.value),
        ends.map(|ends| ends.low),
        ends.map(|ends| ends.high),
    ]
}

fn same_figures(one: &Pairs, other: &Pairs) -> Result<(), TestCaseError> {
    for (i, (a, b)) in untouched(one).iter().zip(untouched(other)).enumerate() {
        prop_assert!(both_near(*a, b), "figure {}: {:?} and {:?}", i, a, b);
    }
    Ok(())
}

fn same_differences(one: &Differences, other: &Differences) -> bool {
    one.n == other.n && near(one.mean.value, other.mean.value) && near(one.sd, other.sd)
}

proptest! {
    #[test]
    fn a_mark_more_for_everybody_changes_nothing(pairs in marks(), more in -9_i32..9) {
        let more = f64::from(more);
        let moved: Pairs = pairs.iter().map(|(x, y)| (x + more, y + more)).collect();
        same_figures(&pairs, &moved)?;
        let (before, after) = (differences(&pairs).unwrap(), differences(&moved).unwrap());
        prop_assert!(same_differences(&before, &after));
    }

    #[test]
    fn another_order_changes_nothing((pairs, other) in shuffled()) {
        same_figures(&pairs, &other)?;
        let (before, after) = (differences(&pairs).unwrap(), differences(&other).unwrap());
        prop_assert!(same_differences(&before, &after));
        prop_assert_eq!(count_within(&pairs, 1.0), count_within(&other, 1.0));
    }

    #[test]
    fn swapped_markers_mirror_differences_and_limits(pairs in marks()) {
        let swapped: Pairs = pairs.iter().map(|(x, y)| (*y, *x)).collect();
        same_figures(&pairs, &swapped)?;
        let (one, other) = (differences(&pairs).unwrap(), differences(&swapped).unwrap());
        prop_assert!(near(one.mean.value, -other.mean.value) && near(one.sd, other.sd));
        let (limits, mirrored) = (one.limits_of_agreement(), other.limits_of_agreement());
        prop_assert!(near(limits.lower.value, -mirrored.upper.value));
        prop_assert!(near(limits.upper.value, -mirrored.lower.value));
    }

    #[test]
    fn a_milder_second_marker_moves_the_mean_alone(pairs in marks(), more in 1_i32..9) {
        let more = f64::from(more);
        let moved: Pairs = pairs.iter().map(|(x, y)| (*x, y + more)).collect();
        let (before, after) = (differences(&pairs).unwrap(), differences(&moved).unwrap());
        prop_assert!(near(before.mean.value + more, after.mean.value));
        prop_assert!(near(before.sd, after.sd));
    }

    #[test]
    fn identical_marks_agree_in_full(pairs in marks()) {
        let same: Pairs = pairs.iter().map(|(x, _)| (*x, *x)).collect();
        prop_assert_eq!(count_within(&same, 0.0), same.len());
        let varies = same.iter().any(|(x, _)| (x - same[0].0).abs() > 0.0);
        let expected = varies.then_some(1.0);
        let [kappa, se, icc @ ..] = untouched(&same);
        prop_assert!(both_near(kappa, expected) && both_near(se, varies.then_some(0.0)));
        prop_assert!(icc.iter().all(|found| both_near(*found, expected)), "{icc:?}");
    }

    /// Figures of any size, none of them marks.
    #[test]
    fn nothing_that_comes_out_is_nan(
        pairs in prop::collection::vec((-1e6..1e6_f64, prop_oneof![-1e-6..1e6_f64, Just(0.1)]), 0..12),
    ) {
        for figure in untouched(&pairs).into_iter().flatten() {
            prop_assert!(figure.is_finite(), "{figure}");
        }
        if let Some(found) = differences(&pairs) {
            prop_assert!(found.mean.value.is_finite() && found.sd >= 0.0);
            prop_assert!(found.limits_of_agreement().lower.se >= 0.0);
        }
    }
}
