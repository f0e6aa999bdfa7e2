//! Cells of results: what shifting, scaling and shuffling may and may not
//! change.

use analysis::stats::agreement::intraclass_correlation;
use analysis::stats::precision::precision;
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

proptest! {
    #[test]
    fn a_change_of_scale_scales_the_precision(cells in cells(), zero in -50_i32..50) {
        prop_assume!(precision(&cells).is_some());
        let moved = each(&cells, |x| 10.0 * x + f64::from(zero));
        let (before, after) = (precision(&cells).unwrap(), precision(&moved).unwrap());
        prop_assert!(near(10.0 * before.repeatability_sd, after.repeatability_sd));
        prop_assert!(near(10.0 * before.reproducibility_sd, after.reproducibility_sd));
    }

    #[test]
    fn the_order_of_cells_and_results_does_not_matter(
        (cells, other) in cells().prop_flat_map(|cells| (Just(cells.clone()), Just(cells).prop_shuffle())),
    ) {
        let reversed: Cells = other.iter().map(|cell| cell.iter().rev().copied().collect()).collect();
        match (precision(&cells), precision(&reversed)) {
            (Some(a), Some(b)) => {
                prop_assert!(near(a.between_sd, b.between_sd));
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
}
