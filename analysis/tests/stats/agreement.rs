//! Two markers: what shifting, swapping and shuffling may and may not change.

use analysis::stats::agreement::{
    Differences, IntraclassCorrelations, concordance, count_within, differences, drift,
    intraclass_correlations, linear, major_axis, nominal, pearson, quadratic, spearman,
    weighted_kappa,
};
use analysis::stats::interval::student_t_two_sided_p;
use proptest::prelude::*;

use super::{both_near, intervals_near, near};

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

fn kappas(pairs: &[(f64, f64)]) -> [Option<f64>; 3] {
    [nominal, linear, quadratic].map(|weights| Some(weighted_kappa(pairs, weights)?.value))
}

fn kappa_errors(pairs: &[(f64, f64)]) -> [Option<f64>; 3] {
    [nominal, linear, quadratic].map(|weights| Some(weighted_kappa(pairs, weights)?.se))
}

fn iccs(pairs: &[(f64, f64)]) -> Option<IntraclassCorrelations> {
    let table: Vec<Vec<f64>> = pairs.iter().map(|(x, y)| vec![*x, *y]).collect();
    intraclass_correlations(&table)
}

/// The values and ends of intervals of all six coefficients.
fn icc_figures(pairs: &[(f64, f64)]) -> Vec<Option<f64>> {
    let Some(found) = iccs(pairs) else {
        return Vec::new();
    };
    [found.one_way, found.two_way_random, found.two_way_mixed]
        .into_iter()
        .flat_map(|icc| [icc.single, icc.average])
        .flat_map(|icc| {
            let interval = icc.and_then(|icc| icc.interval95);
            [
                icc.map(|icc| icc.value),
                interval.map(|i| i.low),
                interval.map(|i| i.high),
            ]
        })
        .collect()
}

/// Everything that a common shift, a swap of the markers or another order
/// must not touch.
fn untouched(pairs: &[(f64, f64)]) -> Vec<Option<f64>> {
    let mut figures = vec![spearman(pairs), pearson(pairs), concordance(pairs)];
    figures.extend(kappas(pairs));
    figures.extend(kappa_errors(pairs));
    figures.extend(icc_figures(pairs));
    figures
}

fn same_figures(one: &[Option<f64>], other: &[Option<f64>]) -> Result<(), TestCaseError> {
    prop_assert_eq!(one.len(), other.len());
    for (i, (a, b)) in one.iter().zip(other).enumerate() {
        prop_assert!(both_near(*a, *b), "figure {}: {:?} and {:?}", i, a, b);
    }
    Ok(())
}

fn same_differences(one: &Differences, other: &Differences) -> bool {
    one.n == other.n
        && near(one.mean.value, other.mean.value)
        && near(one.sd, other.sd)
        && near(one.mean_absolute, other.mean_absolute)
}

fn slopes(pairs: &[(f64, f64)]) -> Option<(f64, Option<analysis::interval::Interval>)> {
    major_axis(pairs).map(|axis| (axis.slope, axis.interval95))
}

proptest! {
    #[test]
    fn a_mark_more_for_everybody_changes_nothing(pairs in marks(), more in -9_i32..9) {
        let more = f64::from(more);
        let moved: Pairs = pairs.iter().map(|(x, y)| (x + more, y + more)).collect();
        same_figures(&untouched(&pairs), &untouched(&moved))?;
        let (before, after) = (differences(&pairs).unwrap(), differences(&moved).unwrap());
        prop_assert!(same_differences(&before, &after));
        match (slopes(&pairs), slopes(&moved)) {
            (Some((a, of_a)), Some((b, of_b))) => {
                prop_assert!(near(a, b) && intervals_near(of_a, of_b));
            }
            (a, b) => prop_assert!(a.is_none() && b.is_none()),
        }
    }

    #[test]
    fn another_order_changes_nothing((pairs, other) in shuffled()) {
        same_figures(&untouched(&pairs), &untouched(&other))?;
        let (before, after) = (differences(&pairs).unwrap(), differences(&other).unwrap());
        prop_assert!(same_differences(&before, &after));
        prop_assert_eq!(count_within(&pairs, 1.0), count_within(&other, 1.0));
    }

    #[test]
    fn swapped_markers_mirror_differences_and_limits(pairs in marks()) {
        let swapped: Pairs = pairs.iter().map(|(x, y)| (*y, *x)).collect();
        same_figures(&untouched(&pairs), &untouched(&swapped))?;
        let (one, other) = (differences(&pairs).unwrap(), differences(&swapped).unwrap());
        prop_assert!(near(one.mean.value, -other.mean.value) && near(one.sd, other.sd));
        let (limits, mirrored) = (one.limits_of_agreement(), other.limits_of_agreement());
        prop_assert!(near(limits.lower.value, -mirrored.upper.value));
        prop_assert!(near(limits.upper.value, -mirrored.lower.value));
        if let (Some((slope, _)), Some((turned, _))) = (slopes(&pairs), slopes(&swapped)) {
            prop_assert!(near(slope * turned, 1.0) || slope.abs().min(turned.abs()) < 1e-9);
        }
    }

    #[test]
    fn a_milder_second_marker_moves_the_mean_alone(pairs in marks(), more in 1_i32..9) {
        let more = f64::from(more);
        let moved: Pairs = pairs.iter().map(|(x, y)| (*x, y + more)).collect();
        let (before, after) = (differences(&pairs).unwrap(), differences(&moved).unwrap());
        prop_assert!(near(before.mean.value + more, after.mean.value));
        prop_assert!(near(before.sd, after.sd));
        prop_assert!(both_near(pearson(&pairs), pearson(&moved)));
        prop_assert!(both_near(spearman(&pairs), spearman(&moved)));
        let consistency = |pairs: &Pairs| Some(iccs(pairs)?.two_way_mixed.single?.value);
        if let (Some(before), Some(after)) = (consistency(&pairs), consistency(&moved)) {
            prop_assert!(near(before, after));
        }
    }

    #[test]
    fn identical_marks_agree_in_full(pairs in marks()) {
        let same: Pairs = pairs.iter().map(|(x, _)| (*x, *x)).collect();
        prop_assert_eq!(count_within(&same, 0.0), same.len());
        let varies = same.iter().any(|(x, _)| (x - same[0].0).abs() > 0.0);
        let expected = varies.then_some(1.0);
        for found in untouched(&same).iter().take(6) {
            prop_assert!(both_near(*found, expected), "{found:?}");
        }
        prop_assert!(icc_figures(&same).iter().all(|found| both_near(*found, expected)));
        prop_assert!(kappa_errors(&same).iter().flatten().all(|se| se.abs() < 1e-300));
        prop_assert!(both_near(major_axis(&same).map(|axis| axis.slope), expected));
    }

    /// Quadratically weighted kappa and Lin's concordance are one coefficient
    /// worked out in two ways, and with two markers ICC(3,1) is
    /// 2 s_xy/(s_x² + s_y²).
    #[test]
    fn coefficients_that_are_the_same_agree(pairs in marks()) {
        prop_assert!(both_near(kappas(&pairs)[2], concordance(&pairs)));
        let Some(shifted) = differences(&pairs).map(|found| found.mean.value) else {
            return Ok(());
        };
        let level: Pairs = pairs.iter().map(|(x, y)| (*x, y - shifted)).collect();
        let mixed = iccs(&pairs).and_then(|found| found.two_way_mixed.single);
        if let (Some(mixed), Some(level)) = (mixed, concordance(&level)) {
            prop_assert!(near(mixed.value, level), "{mixed:?} {level}");
        }
    }

    #[test]
    fn concordance_never_exceeds_correlation(pairs in marks()) {
        if let (Some(concordance), Some(pearson)) = (concordance(&pairs), pearson(&pairs)) {
            prop_assert!(concordance.abs() <= pearson.abs() + 1e-12);
        }
    }

    /// Pitman's and Morgan's test: sum and difference are correlated where
    /// the spreads differ.
    #[test]
    fn a_slope_of_one_is_ruled_out_as_equal_spreads_are(pairs in marks()) {
        let turned: Pairs = pairs.iter().map(|(x, y)| (x + y, y - x)).collect();
        let rising = major_axis(&pairs).filter(|axis| axis.slope > 0.0);
        let interval = rising.and_then(|axis| axis.interval95);
        if let (Some(interval), Some(r)) = (interval, pearson(&turned)) {
            let df = pairs.len() - 2;
            let t = r * (df as f64 / (1.0 - r * r)).sqrt();
            let p = student_t_two_sided_p(t, df).unwrap();
            prop_assume!((p - 0.05).abs() > 1e-6);
            prop_assert_eq!(interval.contains(1.0), p > 0.05, "{:?} {}", interval, p);
        }
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
        if let Some(found) = drift(&pairs) {
            prop_assert!(found.slope.value.is_finite() && found.last_less_first_third.se >= 0.0);
        }
        if let Some((slope, interval)) = slopes(&pairs) {
            prop_assert!(slope.is_finite());
            prop_assert!(interval.is_none_or(|i| i.low <= slope && slope <= i.high));
        }
    }
}
