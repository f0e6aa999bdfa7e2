//! Sample sizes, differences of means and of proportions.

use analysis::stats::interval::newcombe95;
use analysis::stats::sample::half_width95;
use analysis::stats::spread::{difference_of_means, mean_estimate, sample_sd};
use proptest::prelude::*;

use super::near;

fn values(least: usize) -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(-50.0..50.0_f64, least..30)
}

proptest! {
    #[test]
    fn the_width_is_that_of_the_interval(values in values(2)) {
        let interval = mean_estimate(&values).unwrap().interval95().unwrap();
        let half = half_width95(sample_sd(&values).unwrap(), values.len()).unwrap();
        prop_assert!(near(interval.width() / 2.0, half));
    }

    #[test]
    fn more_sheets_leave_less_open(sd in 0.1..9.0_f64, n in 2_usize..500) {
        prop_assert!(half_width95(sd, n + 1).unwrap() < half_width95(sd, n).unwrap());
    }

    #[test]
    fn swapped_samples_mirror_their_difference(one in values(1), other in values(1)) {
        let (there, back) =
            (difference_of_means(&one, &other).unwrap(), difference_of_means(&other, &one).unwrap());
        prop_assert!(near(there.value, -back.value) && near(there.se, back.se));
        prop_assert_eq!(there.df, one.len() + other.len() - 2);
    }

    #[test]
    fn a_change_lies_in_its_interval(n1 in 1_usize..60, n2 in 1_usize..60, s1 in 0.0..=1.0_f64, s2 in 0.0..=1.0_f64) {
        let upto = |n: usize, share: f64| (0..=n).filter(|i| (*i as f64) < share * n as f64).count();
        let (before, after) = ((upto(n1, s1), n1), (upto(n2, s2), n2));
        let found = newcombe95(before, after).unwrap();
        let change = after.0 as f64 / n2 as f64 - before.0 as f64 / n1 as f64;
        prop_assert!(found.contains(change) && found.low >= -1.0 && found.high <= 1.0);
    }
}
