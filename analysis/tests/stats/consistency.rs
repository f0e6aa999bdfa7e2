//! Cells of results: what shifting, scaling and shuffling may and may not
//! change.

use analysis::stats::agreement::intraclass_correlation;
use analysis::stats::consistency::{
    cochran_critical, cochran_statistic, mandel_h, mandel_h_critical, mandel_k, mandel_k_critical,
    precision,
};
use analysis::stats::spread::{mean, sample_sd};
use proptest::prelude::*;

use super::near;

type Cells = Vec<Vec<f64>>;

/// A result: 0.1 to 99.9 in steps of 0.1, as read off an instrument.
fn result() -> impl Strategy<Value = f64> {
    (1_u32..1000).prop_map(|tenths| f64::from(tenths) / 10.0)
}

fn equal_cells() -> impl Strategy<Value = Cells> {
    (2_usize..6).prop_flat_map(|n| prop::collection::vec(prop::collection::vec(result(), n), 3..12))
}

fn cells() -> impl Strategy<Value = Cells> {
    prop::collection::vec(prop::collection::vec(result(), 1..6), 3..12)
}

fn each(cells: &Cells, change: impl Fn(f64) -> f64) -> Cells {
    let cell = |cell: &Vec<f64>| cell.iter().map(|x| change(*x)).collect();
    cells.iter().map(cell).collect()
}

fn degrees(cell: &[f64]) -> f64 {
    (cell.len() - 1) as f64
}

proptest! {
    #[test]
    fn a_change_of_scale_scales_the_precision(cells in cells(), zero in -50_i32..50) {
        prop_assume!(precision(&cells).is_some());
        let moved = each(&cells, |x| 10.0 * x + f64::from(zero));
        let (before, after) = (precision(&cells).unwrap(), precision(&moved).unwrap());
        prop_assert!(near(10.0 * before.mean + f64::from(zero), after.mean));
        prop_assert!(near(10.0 * before.repeatability_sd, after.repeatability_sd));
        prop_assert!(near(10.0 * before.reproducibility_sd, after.reproducibility_sd));
        if let (Some(before), Some(after)) = (mandel_h(&cells), mandel_h(&moved)) {
            prop_assert!(before.iter().zip(after).all(|(a, b)| near(*a, b)));
        }
        if let (Some(before), Some(after)) = (mandel_k(&cells), mandel_k(&moved)) {
            let same = before.iter().zip(after).all(|(a, b)| match (a, b) {
                (Some(a), Some(b)) => near(*a, b),
                (a, b) => a.is_none() && b.is_none(),
            });
            prop_assert!(same);
        }
    }

    #[test]
    fn the_order_of_cells_and_results_does_not_matter(
        (cells, other) in cells().prop_flat_map(|cells| (Just(cells.clone()), Just(cells).prop_shuffle())),
    ) {
        let reversed: Cells = other.iter().map(|cell| cell.iter().rev().copied().collect()).collect();
        match (precision(&cells), precision(&reversed)) {
            (Some(a), Some(b)) => {
                prop_assert!(near(a.mean, b.mean) && near(a.between_sd, b.between_sd));
                prop_assert!(near(a.repeatability_sd, b.repeatability_sd));
            }
            (a, b) => prop_assert!(a.is_none() && b.is_none()),
        }
    }

    #[test]
    fn reproducibility_is_never_better_than_repeatability(cells in cells()) {
        if let Some(found) = precision(&cells) {
            prop_assert!(found.repeatability_sd >= 0.0 && found.between_sd >= 0.0);
            prop_assert!(found.reproducibility_sd >= found.repeatability_sd);
        }
    }

    /// For equal cells: E691's √(s_x̄² + s_r² (n − 1)/n), at least s_r; and
    /// the share of s_L² is ICC(1,1), where it is above 0.
    #[test]
    fn equal_cells_give_the_same_by_two_other_ways(cells in equal_cells()) {
        let found = precision(&cells).unwrap();
        let n = cells[0].len() as f64;
        let means: Vec<f64> = cells.iter().map(|cell| mean(cell).unwrap()).collect();
        let of_means = sample_sd(&means).unwrap();
        let repeatability = found.repeatability_sd;
        let by_e691 = of_means.hypot(repeatability * ((n - 1.0) / n).sqrt()).max(repeatability);
        prop_assert!(near(found.reproducibility_sd, by_e691), "{found:?} {by_e691}");
        if let Some(icc) = intraclass_correlation(&cells).filter(|icc| icc.value > 0.0) {
            let share = (found.between_sd / found.reproducibility_sd).powi(2);
            prop_assert!(near(icc.value, share), "{icc:?} {found:?}");
        }
    }

    #[test]
    fn squares_of_h_and_k_have_their_sums(cells in cells()) {
        let p = cells.len() as f64;
        if let Some(h) = mandel_h(&cells) {
            prop_assert!(near(h.iter().sum::<f64>(), 0.0));
            prop_assert!(near(h.iter().map(|h| h * h).sum::<f64>(), p - 1.0));
            let most = (p - 1.0) / p.sqrt();
            prop_assert!(h.iter().all(|h| h.abs() <= most * (1.0 + 1e-12)));
        }
        if let Some(k) = mandel_k(&cells) {
            let weighted: f64 = cells.iter().zip(&k).map(|(cell, k)| degrees(cell) * k.unwrap_or(0.0).powi(2)).sum();
            let whole: f64 = cells.iter().map(|cell| degrees(cell)).sum();
            prop_assert!(near(weighted, whole), "of equal cells, k's squares average to 1");
        }
    }

    #[test]
    fn cochrans_c_is_a_share(sds in prop::collection::vec(0.0..9.0_f64, 2..12), scale in 0.01..100.0_f64) {
        let found = cochran_statistic(&sds).unwrap();
        let least = 1.0 / sds.len() as f64;
        prop_assert!(found >= least * (1.0 - 1e-12) && found <= 1.0);
        let scaled: Vec<f64> = sds.iter().map(|sd| sd * scale).collect();
        prop_assert!(near(cochran_statistic(&scaled).unwrap(), found));
    }

    #[test]
    fn critical_values_keep_their_range_and_order(p in 3_usize..200, n in 2_usize..40) {
        let cells = p as f64;
        for (most, at) in [
            ((cells - 1.0) / cells.sqrt(), [0.05, 0.01, 0.005].map(|level| mandel_h_critical(p, level))),
            (cells.sqrt(), [0.05, 0.01, 0.005].map(|level| mandel_k_critical(p, n, level))),
            (1.0, [0.05, 0.01, 0.005].map(|level| cochran_critical(p, n, level))),
        ] {
            let [five, one, half] = at.map(Option::unwrap);
            prop_assert!(five > 0.0 && five <= one && one <= half && half <= most * (1.0 + 1e-12));
        }
    }
}
